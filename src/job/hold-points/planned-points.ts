// The hold points that a plan opens: one for each thing in it that must be proven before it is hidden or handed over.
import type { PartKind, PartOf } from '../../plan/plan.ts';
import { type ChannelGain, channelGain } from '../gains/channel-gain.ts';
import { leadEnd } from '../leads/lead-ends.ts';
import { cableWords } from '../rules/cables.ts';
import { expectedReading, leadFrom } from '../rules/lead-readings.ts';
import type { Lane, PlanView } from '../rules/plan-view.ts';
import { called, said } from '../rules/words.ts';
import { type EvidenceHow, type Expected, plainWords, suitedUnit } from './evidence-forms.ts';
import { type Hidden, hiddenBehind } from './hiding.ts';
import { type HoldPointKind, type HoldPointStage, holdPointId, kindFacts } from './ids.ts';

/** One thing to prove, before anybody has proven it. */
export interface PlannedPoint {
  id: string;
  kind: HoldPointKind;
  /** The part that it is of; the id is a terminal where it is of one channel of an amplifier. */
  of: { part: PartKind; id: string };
  stage: HoldPointStage;
  /** For a tag: "Gain A/1". */
  name: string;
  /** What is claimed, in a sentence. */
  says: string;
  /** What may close it; a value that cannot be judged closes nothing. */
  accepts: EvidenceHow[];
  /** How it is closed, in words. */
  closes: string;
  expected: Expected | null;
  /** What is not known that the expected value needs. */
  needs: string | null;
  hidden: Hidden;
  /** The load behind it, for what is read at the amplifier. */
  lane?: Lane;
}

type Draft = Pick<PlannedPoint, 'name' | 'says' | 'accepts' | 'closes'> &
  Partial<Pick<PlannedPoint, 'expected' | 'needs' | 'lane'>>;

function point(view: PlanView, kind: HoldPointKind, of: string, draft: Draft): PlannedPoint {
  const { part, stage } = kindFacts[kind];
  return {
    id: holdPointId(kind, of),
    kind,
    of: { part, id: of },
    stage,
    expected: null,
    needs: null,
    ...draft,
    hidden: hiddenBehind(view, kind, of),
  };
}

/** Nothing to body metal from here up. */
const clearOhm = 100_000;
/** The most that a good ground shows. */
const groundOhmMax = 0.005;
/** Volts that a source may give; which it gives is what is to be found. */
const sourceV = { low: 0.05, high: 50 };

function end(view: PlanView, terminal: string | undefined): string {
  return leadEnd(view, terminal)?.words ?? 'an end that is not planned yet';
}

function runPoint(view: PlanView, run: PartOf<'run'>): PlannedPoint {
  const way = `${run.from ?? '?'} to ${run.to ?? '?'}`;
  return point(view, 'run-laid', run.id, {
    name: `Run ${run.id}`,
    says: `${cableWords(run)} lies as planned from ${way}, held and sleeved, and touches no body metal.`,
    accepts: ['measured', 'photo', 'seen'],
    closes:
      'A meter from the run to body metal, both ends off: 100 kohm or more. Or somebody who looked along it, or a photo of its way.',
    expected: { low: clearOhm, high: 'open', target: 'open', unit: 'ohm' },
  });
}

function fusePoint(view: PlanView, { id, run, ratedA, family }: PartOf<'fuse'>): PlannedPoint {
  const rating = [ratedA === undefined ? undefined : `${said(ratedA)} A`, family].filter(Boolean).join(' ');
  return point(view, 'fuse-fitted', id, {
    name: `Fuse ${id}`,
    says: `${id}${run === undefined ? '' : ` in ${run}`} is the fuse of the plan${rating === '' ? '' : `: ${rating}`}.`,
    accepts: ['measured', 'photo', 'seen'],
    closes:
      'The rating printed on the fuse that is fitted. Or somebody who saw it, or a photo on which it can be read.',
    expected: ratedA === undefined ? null : { low: ratedA, high: ratedA, target: ratedA, unit: 'A' },
    needs: ratedA === undefined ? 'its rating' : null,
  });
}

function groundPoint(view: PlanView, { id, of, point: place }: PartOf<'ground'>): PlannedPoint {
  return point(view, 'ground-holds', id, {
    name: `Ground ${id}`,
    says: `${id}${of === undefined ? '' : ` of ${of}`} holds on bare metal${place === undefined ? '' : `, ${place}`}.`,
    accepts: ['measured', 'photo', 'seen'],
    closes:
      'Volts across it over the current that flows: 5 mOhm or less. Or somebody who saw bare metal and a tight bolt, or a photo of both.',
    expected: { low: 0, high: groundOhmMax, target: 0, unit: 'ohm' },
  });
}

function leadPoint(view: PlanView, lead: PartOf<'lead'>): PlannedPoint {
  return point(view, 'lead-connected', lead.id, {
    name: `Lead ${lead.id}`,
    says: `${lead.id} goes from ${end(view, lead.from)} to ${end(view, lead.to)}, as its labels say.`,
    accepts: ['take', 'seen'],
    closes: 'A channel walk or a take near the driver that hears it. Or somebody who followed it.',
  });
}

function coilsPoint(view: PlanView, lane: Lane): PlannedPoint {
  const { load } = lane;
  const expected = expectedReading(view, leadFrom(view, lane));
  const at = load.amplifier ?? load.id;
  const range: Expected | null =
    expected === undefined
      ? null
      : { low: expected.lowOhm, high: expected.highOhm, target: expected.midOhm, unit: 'ohm' };
  const reads = range === null ? 'what is planned' : rangeWords(range);
  return point(view, 'coils-read', load.id, {
    name: `Coils on ${at}`,
    says: `The coils on ${at} are wired as planned: a meter reads ${reads} at the amplifier's end.`,
    accepts: range === null ? ['measured', 'seen'] : ['measured'],
    closes: 'A meter at the amplifier end of the lead, amplifier unplugged.',
    expected: range,
    needs: range === null ? 'the ohms of its coils' : null,
    lane,
  });
}

function channelPoint(view: PlanView, channel: PartOf<'channel'>): PlannedPoint {
  const drivers = view.lanes
    .filter(({ channels }) => channels.includes(channel))
    .flatMap((lane) => lane.drivers.map(({ id }) => end(view, id)));
  const heard = drivers.length === 0 ? 'the driver that it is planned for' : [...new Set(drivers)].join(' and ');
  return point(view, 'channel-reaches', channel.id, {
    name: `Channel ${channel.id}`,
    says: `${called(channel)} is heard from ${heard}, and from nowhere else.`,
    accepts: ['take', 'seen'],
    closes: 'A channel walk, quiet, one channel at a time; with takes near each driver or by ear.',
  });
}

function polarityPoint(view: PlanView, driver: PartOf<'driver'>): PlannedPoint {
  return point(view, 'driver-polarity', driver.id, {
    name: `${driver.id} polarity`,
    says: `${end(view, driver.id)} pushes when it should push.`,
    accepts: ['take', 'seen'],
    closes: 'A take near the driver that shows its first movement. Or somebody who saw it move.',
  });
}

function ceilingPoint(view: PlanView, source: PartOf<'source'>): PlannedPoint {
  const { cleanV } = source;
  return point(view, 'source-ceiling', source.id, {
    name: 'Source ceiling',
    says: `How many volts ${called(source)} gives before it distorts is known from a measurement.`,
    accepts: ['measured'],
    closes: 'RMS volts at the last clean volume step, read with the drivers unplugged.',
    expected: { ...sourceV, target: cleanV ?? null, unit: 'V' },
  });
}

function gainPoint(view: PlanView, lane: Lane, terminal: string): PlannedPoint {
  const { tone, reading }: ChannelGain = channelGain(lane);
  const known = 'needs' in reading || 'needs' in tone ? null : { reading, tone };
  const reads =
    known === null
      ? 'where it was planned'
      : `where a meter reads ${said(known.reading.readV)} V at ${said(known.tone.fHz)} Hz, ${said(-known.tone.toneDbfs)} dB below full scale`;
  return point(view, 'gain-set', terminal, {
    name: `Gain ${terminal}`,
    says: `The gain of ${end(view, terminal)} stands ${reads}.`,
    accepts: known === null ? ['measured', 'seen'] : ['measured'],
    closes: 'AC volts at the amplifier, driver unplugged, within 0.5 dB of the target.',
    expected: known?.reading.allowed ?? null,
    needs: 'needs' in reading ? reading.needs : null,
    lane,
  });
}

function boxPoint(view: PlanView, box: PartOf<'enclosure'>): PlannedPoint {
  return point(view, 'box-fixed', box.id, {
    name: `${called(box)} fixed`,
    says: `${called(box)} is bolted to structure and does not give when it is tugged in three directions.`,
    accepts: ['seen'],
    closes: 'Somebody who tugged it and torqued its fixings.',
  });
}

/** A source that nobody called factory is one if the factory adds to its signal, or if it gives speaker level. */
export function isFactory({ factory, factoryProcessing = [], kind }: PartOf<'source'>): boolean {
  return factory ?? (factoryProcessing.length > 0 || kind === 'speaker');
}

function sourcePoints(view: PlanView, source: PartOf<'source'>): PlannedPoint[] {
  const factory = isFactory(source);
  const sounds = point(view, 'factory-sounds', source.id, {
    name: 'Factory sounds',
    says: `Every chime and warning that ${called(source)} gave when the car came is still heard.`,
    accepts: ['take', 'seen'],
    closes: 'Each of them set off once more: reverse, belt, door, indicator. A take, or somebody who heard them.',
  });
  const calls = point(view, 'calls-heard', source.id, {
    name: 'Hands-free call',
    says: `A hands-free call through ${called(source)} is heard at both ends.`,
    accepts: ['take', 'seen'],
    closes: 'A call made from the seat. A take, or somebody who held it.',
  });
  return [
    ...(source.kind === 'digital' ? [] : [ceilingPoint(view, source)]),
    ...(factory ? [sounds] : []),
    ...((source.calls ?? factory) ? [calls] : []),
  ];
}

function settingsPoint(view: PlanView, processor: PartOf<'processor'>): PlannedPoint {
  return point(view, 'settings-kept', processor.id, {
    name: `Settings of ${processor.id}`,
    says: `${called(processor)} has every setting of the plan after its power was off and on again.`,
    accepts: ['seen'],
    closes: 'Its settings read back after a power cycle, by somebody who compared them.',
  });
}

function plannedPoint(view: PlanView, { id, name, of }: PartOf<'holdPoint'>): PlannedPoint {
  const says = name ?? (of === undefined ? `${id} is proven` : `${of} is proven`);
  return point(view, 'planned', id, {
    name: name ?? id,
    says: /[.!?]$/.test(says) ? says : `${says}.`,
    accepts: ['take', 'photo', 'seen'],
    closes: 'Somebody who saw it and found it right, or a photo or a take that shows it.',
  });
}

/** "3.06 to 3.74 ohm", "100 kohm or more", "0 to 5 mOhm", "80 A". */
export function rangeWords({ low, high, unit }: Expected): string {
  if (low === 'open') return 'open';
  if (high === 'open') return `${plainWords(low, unit)} or more`;
  if (low === high) return plainWords(low, unit);
  const { times, word } = suitedUnit(high, unit);
  return `${said(low / times)} to ${said(high / times)} ${word}`;
}

/**
 * Every hold point of a plan, the first stages first, then in the order of the plan.
 *
 * A gain is one of each amplifier channel that drives a load; a bridged pair has one.
 */
export function plannedPoints(view: PlanView): PlannedPoint[] {
  const { plan, lanes } = view;
  const driven = lanes.filter(({ load, amplifier }) => load.amplifier !== undefined && amplifier !== undefined);
  const gains = new Map(driven.map((lane) => [lane.load.amplifier as string, lane]));
  const atSources = plan.source.flatMap((source) => sourcePoints(view, source));
  return [
    ...plan.run.map((run) => runPoint(view, run)),
    ...plan.fuse.map((fuse) => fusePoint(view, fuse)),
    ...plan.ground.map((ground) => groundPoint(view, ground)),
    ...plan.lead.map((lead) => leadPoint(view, lead)),
    ...lanes.filter(({ load }) => load.network !== undefined).map((lane) => coilsPoint(view, lane)),
    ...plan.holdPoint.map((part) => plannedPoint(view, part)),
    ...plan.channel.filter(({ spare }) => spare !== true).map((channel) => channelPoint(view, channel)),
    ...plan.driver.map((driver) => polarityPoint(view, driver)),
    ...atSources.filter(({ stage }) => stage === 'gains'),
    ...[...gains].map(([terminal, lane]) => gainPoint(view, lane, terminal)),
    ...plan.enclosure.filter(({ kind }) => kind !== 'infinite-baffle').map((box) => boxPoint(view, box)),
    ...atSources.filter(({ stage }) => stage !== 'gains'),
    ...plan.processor.map((processor) => settingsPoint(view, processor)),
  ];
}

// The gain sheet: where each gain of the chain stands for least noise, what the meter should read at each amplifier channel,
// what it read, and how much hiss that leaves at the seat. What cannot be computed says what is missing.
import { z } from 'zod';
import { partOfTerminal } from '../../plan/networks.ts';
import type { PartOf } from '../../plan/plan.ts';
import { type Measured, plainValue } from '../hold-points/evidence-forms.ts';
import type { GivenEvidence } from '../hold-points/given-evidence.ts';
import { type HoldPoint, holdPointSchema, holdPointStates, holdPointsIn } from '../hold-points/hold-points.ts';
import { holdPointId } from '../hold-points/ids.ts';
import { leadEnd } from '../leads/lead-ends.ts';
import { circumstancesOf } from '../projections/circumstances.ts';
import type { JobState } from '../projections/job-state.ts';
import { chainGains } from '../rules/chain-gains.ts';
import { hissAtSeat } from '../rules/hiss-at-seat.ts';
import { type Lane, type PlanView, planView } from '../rules/plan-view.ts';
import { called, said } from '../rules/words.ts';
import { channelGain, gainToneDbfs, meterCornerHz } from './channel-gain.ts';

const needs = z.string().describe('what is not known that this needs');

const measuredSchema = z.object({
  readV: z.number(),
  toneDbfs: z.number(),
  offDb: z.number().nullable().describe('above its target; null where that is not known, or nothing was read'),
  entry: z.string(),
  when: z.string(),
  who: z.string(),
});

export const gainVerdicts = ['within', 'too-low', 'too-high', 'not-measured', 'doubtful', 'cannot-tell'] as const;

export const gainRowSchema = z.object({
  holdPoint: z.string(),
  state: z.enum(holdPointStates),
  reason: z.string(),
  covers: holdPointSchema.shape.covers.describe('that hide the gain'),
  terminal: z.string().describe('amplifier channel'),
  words: z.string(),
  channel: z.string().nullable(),
  load: z.string(),
  drivers: z.array(z.string()),
  target: z
    .object({ fullV: z.number(), amplifierClipV: z.number(), limitedBy: z.enum(['amplifier', 'driver']) })
    .nullable()
    .describe('RMS volts that stand for the power wanted, at full scale'),
  tone: z
    .object({
      fHz: z.number(),
      toneDbfs: z.number(),
      overlapDb: z.number(),
      inPassband: z.boolean().describe('false: play it through a full-range setting, driver unplugged, then restore'),
      filterDb: z.number(),
      meterErrorPct: z.number().describe('what a meter with that corner reads less'),
    })
    .nullable(),
  reading: z
    .object({
      targetV: z.number(),
      unloadedV: z
        .number()
        .describe('with the drivers unplugged: 3 % less by practice, not computed for this amplifier'),
      lowV: z.number(),
      highV: z.number(),
    })
    .nullable()
    .describe('what the meter should show; low to high closes the hold point'),
  measured: measuredSchema.nullable(),
  verdict: z.enum(gainVerdicts),
  settings: z
    .object({
      inputPadDb: z.number().nullable().describe('before the processor; null where the source is not known'),
      inputBelowFullDb: z.number().nullable().describe('what the source leaves unused of the input'),
      processorOutV: z.number().describe('at a full-scale programme'),
      processorTrimDb: z.number(),
      amplifierSensitivityV: z.number(),
      amplifierGainDb: z.number(),
      shortDb: z.number().describe('how far the target stays out of reach'),
    })
    .nullable()
    .describe('for least noise'),
  hiss: z.array(
    z.object({
      driver: z.string(),
      splDb: z.number().nullable(),
      verdict: z.enum(['ok', 'note', 'fix']).nullable(),
      distanceM: z.number().nullable(),
      needs: z.string().nullable(),
    }),
  ),
  needs: z.array(needs),
  says: z.string(),
});

export const gainSourceSchema = z.object({
  source: z.string(),
  words: z.string(),
  cleanV: z.number().nullable(),
  from: z.enum(['measured', 'data-sheet']).nullable(),
  holdPoint: z.string().nullable(),
  state: z.enum(holdPointStates).nullable(),
  needs: z.string().nullable(),
  says: z.string(),
});

export const gainSheetSchema = z.object({
  toneDbfs: z.number(),
  meterHz: z.number().describe('up to which frequency the meter is honest'),
  cautions: z.array(z.string()),
  sources: z.array(gainSourceSchema),
  channels: z.array(gainRowSchema),
});

export type GainRow = z.infer<typeof gainRowSchema>;
export type GainSource = z.infer<typeof gainSourceSchema>;
export type GainSheet = z.infer<typeof gainSheetSchema>;

export interface GainSheetOptions {
  /** Of the tone that plays, -80 .. 0; a tenth of full volts by default. */
  toneDbfs?: number;
  /** 50 .. 1 000 000; that of a cheap meter by default: an assumption. */
  meterHz?: number;
}

const cautions = [
  'Drivers unplugged for gain work; at speakers no tone above -20 dBFS before polarity and high-pass are proven.',
  'Outputs of full-bridge amplifiers touch no body metal, nor each other, nor a meter that has an earth.',
  'Amplifiers under test get hot: a fan, fins free, five minutes on and five off at full tone.',
];

const known = <Value extends object>(value: Value | { needs: string }): Value | null =>
  'needs' in value ? null : value;
const missing = (...values: object[]) => values.flatMap((value) => ('needs' in value ? [value.needs as string] : []));

/** The last volts that were measured for a point. What was read in another unit says nothing of volts. */
function lastVolts(view: PlanView, id: string): { given: GivenEvidence; evidence: Measured; readV: number } | null {
  const all = view.record.evidence.flatMap((given) => {
    const { holdPoint, evidence } = given;
    if (holdPoint !== id || evidence.how !== 'measured') return [];
    const { value, unit } = plainValue(evidence);
    return unit === 'V' && value !== 'open' ? [{ given, evidence, readV: value }] : [];
  });
  return all.at(-1) ?? null;
}

function sourceOf(view: PlanView, source: PartOf<'source'>, points: ReadonlyMap<string, HoldPoint>): GainSource {
  const id = holdPointId('source-ceiling', source.id);
  const point = points.get(id);
  const read = point?.state === 'closed' ? lastVolts(view, id) : null;
  const cleanV = read?.readV ?? source.cleanV ?? null;
  const from = read !== null ? 'measured' : cleanV === null ? null : 'data-sheet';
  const needed = cleanV === null && source.kind !== 'digital' ? 'how many volts it gives clean' : null;
  const word = called(source);
  const says =
    cleanV === null
      ? source.kind === 'digital'
        ? `${word} is digital: it has no volts to measure.`
        : `Cannot tell how many volts ${word} gives clean: measure it.`
      : from === 'measured'
        ? `${word} is clean to ${said(cleanV)} V, measured.`
        : `${word} is clean to ${said(cleanV)} V by its data sheet; measure it.`;
  return {
    source: source.id,
    words: word,
    cleanV,
    from,
    holdPoint: point?.id ?? null,
    state: point?.state ?? null,
    needs: needed,
    says,
  };
}

/** What the first source that a channel hears gives, and what the input takes. */
function inputOf(view: PlanView, channel: PartOf<'channel'> | undefined, sources: readonly GainSource[]) {
  for (const terminal of channel?.inputs ?? []) {
    const processor = view.part('processor', partOfTerminal(terminal));
    const input = processor?.inputs?.find(({ id }) => `${processor.id}/${id}` === terminal);
    const source = sources.find((one) => input?.from !== undefined && one.source === partOfTerminal(input.from));
    if (source === undefined || source.cleanV === null || input?.maxV === undefined) continue;
    return { sourceCleanV: source.cleanV, inputMaxV: input.maxV };
  }
  return undefined;
}

function settingsOf(
  view: PlanView,
  lane: Lane,
  channel: PartOf<'channel'> | undefined,
  sources: readonly GainSource[],
) {
  if (channel === undefined) return { needs: 'the channel that feeds it' };
  const input = inputOf(view, channel, sources);
  const gains = chainGains(view, lane, channel, 'driver', input);
  if (gains === null) return { needs: 'the processor before it' };
  if ('needs' in gains) return gains;
  const { inputPadDb, inputBelowFullDb, procOutV, procTrimDb, ampSensV, ampGainDb, shortDb } = gains.set;
  return {
    inputPadDb: input === undefined ? null : inputPadDb,
    inputBelowFullDb: input === undefined ? null : inputBelowFullDb,
    processorOutV: procOutV,
    processorTrimDb: procTrimDb,
    amplifierSensitivityV: ampSensV,
    amplifierGainDb: ampGainDb,
    shortDb,
  };
}

function hissOf(view: PlanView, lane: Lane, channel: PartOf<'channel'> | undefined): GainRow['hiss'] {
  if (channel === undefined) return [];
  return lane.drivers.flatMap((driver): GainRow['hiss'] => {
    const found = hissAtSeat(view, lane, channel, driver);
    if (found === null) return [];
    const row = { driver: driver.id, splDb: null, verdict: null, distanceM: null, needs: null };
    if ('needs' in found) return [{ ...row, needs: found.needs }];
    const { splDb, verdict, distanceM } = found;
    return [{ ...row, splDb, verdict, distanceM }];
  });
}

function measuredOf(view: PlanView, lane: Lane, point: HoldPoint): GainRow['measured'] {
  const last = lastVolts(view, point.id);
  if (last === null) return null;
  const { given, evidence, readV } = last;
  const { toneDbfs = gainToneDbfs, meterHz = meterCornerHz } = evidence;
  const { reading } = channelGain(lane, { toneDbfs, meterHz });
  const offDb = 'needs' in reading || readV <= 0 ? null : 20 * Math.log10(readV / reading.readV);
  return { readV, toneDbfs, offDb, entry: given.entry, when: given.when, who: given.who };
}

function verdictOf(point: HoldPoint, row: Pick<GainRow, 'measured' | 'reading'>): GainRow['verdict'] {
  if (row.measured === null) return row.reading === null ? 'cannot-tell' : 'not-measured';
  const judged = point.evidence.findLast(({ entry }) => entry === row.measured?.entry)?.verdict;
  if (judged === 'stale') return 'doubtful';
  if (judged === 'proves') return 'within';
  if (judged !== 'outside') return 'cannot-tell';
  return (row.measured.offDb ?? -1) < 0 ? 'too-low' : 'too-high';
}

function rowWords(row: Omit<GainRow, 'says'>): string {
  const { tone, reading, measured, verdict, needs: needed, words } = row;
  if (tone === null || reading === null) return `Cannot tell for ${words}: ${needed.join(', ')} is not known.`;
  const target = `${said(reading.targetV)} V at ${said(tone.fHz)} Hz, ${said(tone.toneDbfs)} dBFS`;
  const through = tone.inPassband
    ? ''
    : ' Play it through a full-range setting with the driver unplugged, then restore.';
  const off = measured?.offDb ?? null;
  switch (verdict) {
    case 'within':
      return `It stands: ${said(measured?.readV ?? 0)} V was read${off === null ? '' : `, ${signed(off)} dB from its target`}.`;
    case 'too-low':
    case 'too-high':
      return `Turn it ${verdict === 'too-low' ? 'up' : 'down'}${off === null ? '' : ` by ${said(Math.abs(off))} dB`}: ${said(measured?.readV ?? 0)} V was read.${through}`;
    case 'doubtful':
      return `It was read before something that it rests on changed: read it again until the meter shows ${target}.${through}`;
    default:
      return `Turn the gain until the meter shows ${target}.${through}`;
  }
}

const signed = (value: number) =>
  Math.abs(value) < 0.05 ? '0' : `${value > 0 ? '+' : ''}${said(Math.round(value * 10) / 10)}`;

function rowOf(
  view: PlanView,
  lane: Lane,
  point: HoldPoint,
  { sources, options }: { sources: readonly GainSource[]; options: GainSheetOptions },
): GainRow {
  const channel = lane.channels.at(0);
  const { target, tone, reading } = channelGain(lane, options);
  const settings = settingsOf(view, lane, channel, sources);
  const read = known(reading);
  const measured = measuredOf(view, lane, point);
  const draft = {
    holdPoint: point.id,
    state: point.state,
    reason: point.reason,
    covers: point.covers,
    terminal: point.of.id,
    words: leadEnd(view, point.of.id)?.words ?? point.of.id,
    channel: channel?.id ?? null,
    load: lane.load.id,
    drivers: lane.drivers.map(({ id }) => id),
    target: known(target),
    tone: known(tone),
    reading:
      read === null
        ? null
        : {
            targetV: read.readV,
            unloadedV: read.unloadedV,
            lowV: read.allowed.low as number,
            highV: read.allowed.high as number,
          },
    measured,
    settings: known(settings),
    hiss: hissOf(view, lane, channel),
    needs: [...new Set(missing(target, tone, reading, settings))],
  };
  const row = { ...draft, verdict: verdictOf(point, draft) };
  return { ...row, says: rowWords(row) };
}

/**
 * The gain sheet of a job: a row for each amplifier channel that drives a load, in the order of the plan.
 *
 * Volts are RMS, levels in dB; a value that cannot be computed is null, and `needs` says what is missing. Source: P = V^2 / R;
 * the tolerance of half a decibel, the tone of a tenth of full volts and 3 % less without drivers are practice.
 */
export function gainSheet(state: JobState, options: GainSheetOptions = {}): GainSheet {
  const view = planView(state.plan.parts, circumstancesOf(state));
  const points = new Map(holdPointsIn(view).map((point) => [point.id, point]));
  const sources = view.plan.source.map((source) => sourceOf(view, source, points));
  const lanes = new Map(view.lanes.map((lane) => [lane.load.amplifier, lane]));
  const channels = [...points.values()].flatMap((point) => {
    const lane = point.kind === 'gain-set' ? lanes.get(point.of.id) : undefined;
    return lane === undefined ? [] : [rowOf(view, lane, point, { sources, options })];
  });
  const { toneDbfs = gainToneDbfs, meterHz = meterCornerHz } = options;
  return { toneDbfs, meterHz, cautions, sources, channels };
}

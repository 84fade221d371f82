// What a meter should show at the amplifier's end of a speaker lead, and which wiring a reading fits.
import { networkOhm } from '../../drivers/loads/coil-network.ts';
import { coilRise, dcrExpect, type ReadingOhm } from '../../drivers/loads/coil-reading.ts';
import { type WiringHypothesis, wiringFromReading } from '../../drivers/loads/coil-wiring-from-reading.ts';
import { ohmPerMetre } from '../../electrical/conductor.ts';
import { partOfTerminal } from '../../plan/networks.ts';
import type { PartOf } from '../../plan/plan.ts';
import { conductorOf } from './cables.ts';
import { coilOhms } from './loads.ts';
import type { Lane, PlanView } from './plan-view.ts';
import { twoMistakes, wiringHypotheses } from './wiring-hypotheses.ts';

const roomC = 20;

export function laneOfLead({ lanes }: PlanView, lead: PartOf<'lead'>): Lane | undefined {
  return lanes.find(({ load }) => load.amplifier !== undefined && load.amplifier === lead.from);
}

/** The speaker lead of a load; where none is planned, one of which nothing is known. */
export function leadFrom({ plan }: PlanView, { load }: Lane): PartOf<'lead'> {
  const { id, amplifier } = load;
  const planned = plan.lead.find(
    ({ from, kind }) => amplifier !== undefined && from === amplifier && (kind === undefined || kind === 'speaker'),
  );
  return planned ?? (amplifier === undefined ? { id } : { id, from: amplifier });
}

/** Both conductors of a lead, ohm; undefined where size, material or length is not known. */
export function leadOhm(lead: PartOf<'lead'>): number | undefined {
  const conductor = conductorOf(lead);
  return conductor === undefined || lead.lengthM === undefined ? undefined : 2 * lead.lengthM * ohmPerMetre(conductor);
}

export interface ExpectedReading {
  lowOhm: ReadingOhm;
  midOhm: ReadingOhm;
  highOhm: ReadingOhm;
}

/** What the inductor of a passive crossover adds before a woofer, ohm. */
const inductorOhm = { low: 0.1, mid: 0.35, high: 0.6 };
const noInductor = { low: 0, mid: 0, high: 0 };

/**
 * The coils as direct current meets them: behind a passive crossover a capacitor keeps it from the tweeters, and an
 * inductor stands before all others. Undefined where the coils are not known.
 */
function directOhms(lane: Lane, which: 'nominal' | 're') {
  const ohms = coilOhms(lane, which);
  if (ohms === undefined || lane.load.passive === undefined) return ohms && { ohms, inductor: noInductor };
  const tweeters = new Set(lane.drivers.filter(({ kind }) => kind === 'tweeter').map(({ id }) => id));
  const met = [...ohms].map(([coil, ohm]): [string, number] => [
    coil,
    tweeters.has(partOfTerminal(coil)) ? Number.POSITIVE_INFINITY : ohm,
  ]);
  const woofers = lane.drivers.some(({ id }) => !tweeters.has(id));
  return { ohms: new Map(met), inductor: woofers ? inductorOhm : noInductor };
}

/** Coils that direct current does not reach. */
const blockedCoils = (ohms: ReadonlyMap<string, number>) =>
  new Set([...ohms].filter(([, ohm]) => !Number.isFinite(ohm)).map(([coil]) => coil));

/** How a reading was taken. */
type Circumstance = Pick<PartOf<'reading'>, 'temperatureC' | 'probesOhm'>;

/**
 * By the coils' direct-current resistance, else by their labels; with the meter's own leads, where they were read. A lead of
 * unknown size counts as nothing.
 */
export function expectedReading(
  view: PlanView,
  lead: PartOf<'lead'>,
  { temperatureC: coilC = roomC, probesOhm = 0 }: Circumstance = {},
): ExpectedReading | undefined {
  const lane = laneOfLead(view, lead);
  const network = lane?.load.network;
  if (lane === undefined || network === undefined) return undefined;
  const re = directOhms(lane, 're');
  const direct = re ?? directOhms(lane, 'nominal');
  if (direct === undefined) return undefined;
  const ohm = networkOhm(network, direct.ohms);
  if (ohm <= 0) return undefined;
  const coilsAre = re === undefined ? 'nominal' : 're';
  const { lowOhm, midOhm, highOhm } = dcrExpect({ ohm, coilsAre, leadOhm: (leadOhm(lead) ?? 0) + probesOhm, coilC });
  const { low, mid, high } = direct.inductor;
  const more = (read: ReadingOhm, add: number): ReadingOhm => (read === 'open' ? read : read + add);
  return { lowOhm: more(lowOhm, low), midOhm: more(midOhm, mid), highOhm: more(highOhm, high) };
}

export interface ReadWiring {
  /** What fits, the nearest first. */
  matches: string[];
  verdict: 'unique' | 'ambiguous' | 'none';
}

/** The reading that a lead is judged by: the last one with everything plugged in, else the last. */
export function mainReading(readings: readonly PartOf<'reading'>[]): PartOf<'reading'> | undefined {
  return readings.findLast(({ without = [] }) => without.length === 0) ?? readings.at(-1);
}

/** Coils that a reading was taken without: those of the drivers that were unplugged for it. */
const unplugged = ({ without = [] }: PartOf<'reading'>, coils: Iterable<string>) =>
  [...coils].filter((coil) => without.includes(partOfTerminal(coil)));

/** The last reading for each set of unplugged drivers: together they must fit. */
function lastOfEach(readings: readonly PartOf<'reading'>[]): PartOf<'reading'>[] {
  const key = ({ without = [] }: PartOf<'reading'>) => [...without].sort().join(' ');
  const complete = readings.filter(({ value }) => value !== undefined);
  return [...new Map(complete.map((reading) => [key(reading), reading])).values()];
}

/**
 * Which wirings all readings of a lead fit: as planned, by one mistake, as another lead, else by two mistakes at once; undefined where the coils are not known or nothing was read.
 *
 * One reading often fits two wirings, such as four coils in series and parallel and one of them alone: a second one with a
 * driver unplugged tells them apart.
 *
 * @param lanes  others whose lead it may be, where it fits nothing of its own
 */
export function readWiring(
  lane: Lane,
  lead: PartOf<'lead'>,
  readings: PartOf<'reading'> | readonly PartOf<'reading'>[],
  lanes: readonly Lane[] = [],
): ReadWiring | undefined {
  const direct = directOhms(lane, 're');
  const taken = lastOfEach([readings].flat());
  if (direct === undefined || taken.length === 0) return undefined;
  const fitting = (hypotheses: readonly WiringHypothesis[], ohms: ReadonlyMap<string, number>): string[] => {
    const found = taken.map((reading) => {
      const rise = coilRise(reading.temperatureC ?? roomC);
      const coils = new Map([...ohms].map(([coil, ohm]) => [coil, ohm * rise]));
      const out = unplugged(reading, ohms.keys()).map((coil): [string, number] => [coil, Number.POSITIVE_INFINITY]);
      const leadsOhm = (leadOhm(lead) ?? 0) + (reading.probesOhm ?? 0) + direct.inductor.mid;
      const readingOhm = reading.value === 'open' ? Number.POSITIVE_INFINITY : (reading.value ?? 0);
      const without = hypotheses.map(({ override, ...rest }) => ({
        ...rest,
        override: new Map([...(override ?? []), ...out]),
      }));
      return wiringFromReading({ readingOhm, leadOhm: leadsOhm, coils, hypotheses: without }).matches;
    });
    return (found.at(0) ?? []).filter((name) => found.every((names) => names.includes(name)));
  };
  const matches = fitting(wiringHypotheses(lane.load.network ?? '', blockedCoils(direct.ohms)), direct.ohms);
  if (matches.length > 0) return { matches, verdict: matches.length === 1 ? 'unique' : 'ambiguous' };
  // Nothing that is wrong with this lead: perhaps it is another one.
  const others = lanes
    .filter((other) => other !== lane)
    .flatMap((other) => {
      const ohms = directOhms(other, 're');
      const { network, name, id } = other.load;
      if (ohms === undefined || network === undefined) return [];
      return fitting([{ name: `the lead of ${name ?? id}`, network }], ohms.ohms);
    });
  if (others.length > 0) return { matches: others, verdict: 'none' };
  return {
    matches: fitting(twoMistakes(lane.load.network ?? '', blockedCoils(direct.ohms)), direct.ohms),
    verdict: 'none',
  };
}

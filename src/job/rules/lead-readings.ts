// What a meter should show at the amplifier's end of a speaker lead, and which wiring a reading fits.
import { networkOhm } from '../../drivers/loads/coil-network.ts';
import { coilRise, dcrExpect, type ReadingOhm } from '../../drivers/loads/coil-reading.ts';
import { type WiringHypothesis, wiringFromReading } from '../../drivers/loads/coil-wiring-from-reading.ts';
import { ohmPerMetre } from '../../electrical/conductor.ts';
import { coilsIn, driversIn, partOfTerminal } from '../../plan/networks.ts';
import type { PartOf } from '../../plan/plan.ts';
import { conductorOf } from './cables.ts';
import { coilOhms } from './loads.ts';
import type { Lane, PlanView } from './plan-view.ts';

const roomC = 20;

export function laneOfLead({ lanes }: PlanView, lead: PartOf<'lead'>): Lane | undefined {
  return lanes.find(({ load }) => load.amplifier !== undefined && load.amplifier === lead.from);
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

/** What one mistake would make of a wiring; what is planned comes first. */
function hypotheses(lane: Lane): WiringHypothesis[] {
  const network = lane.load.network ?? '';
  const coils = [...new Set(coilsIn(network))];
  const drivers = driversIn(network);
  const open = (names: string[]) => new Map(names.map((coil) => [coil, Number.POSITIVE_INFINITY]));
  const of = (driver: string) => coils.filter((coil) => partOfTerminal(coil) === driver);
  const several = coils.length > 1;
  return [
    { name: 'as planned', network },
    ...(several ? coils.map((coil) => ({ name: `coil ${coil} open`, network, override: open([coil]) })) : []),
    ...(drivers.length > 1
      ? drivers.map((driver) => ({ name: `driver ${driver} open`, network, override: open(of(driver)) }))
      : []),
    ...(several
      ? [
          { name: 'all coils side by side', network: { p: coils } },
          { name: 'all coils in series', network: { s: coils } },
        ]
      : []),
    ...(drivers.length > 1
      ? drivers.map((driver) => ({ name: `driver ${driver} alone`, network: { p: of(driver) } }))
      : []),
    { name: 'a short', network, override: new Map(coils.map((coil) => [coil, 0])) },
    { name: 'a break', network, override: open(coils) },
  ];
}

export interface ReadWiring {
  /** What fits, the nearest first; equal wirings under their first name. */
  matches: string[];
  verdict: 'unique' | 'ambiguous' | 'none';
}

/** Which wiring a reading of a lead fits; undefined where the coils are not known. */
export function readWiring(lane: Lane, lead: PartOf<'lead'>, reading: PartOf<'reading'>): ReadWiring | undefined {
  const direct = directOhms(lane, 're');
  if (direct === undefined || reading.value === undefined) return undefined;
  const rise = coilRise(reading.temperatureC ?? roomC);
  const coils = new Map([...direct.ohms].map(([coil, ohm]) => [coil, ohm * rise]));
  const readingOhm = reading.value === 'open' ? Number.POSITIVE_INFINITY : reading.value;
  const seen = new Set<number>();
  const different = hypotheses(lane).filter(({ network, override }) => {
    const ohm = networkOhm(network, new Map([...coils, ...(override ?? [])]));
    const known = [...seen].some((other) => other === ohm || Math.abs(other / ohm - 1) < 1e-9);
    seen.add(ohm);
    return !known;
  });
  const ohm = (leadOhm(lead) ?? 0) + (reading.probesOhm ?? 0) + direct.inductor.mid;
  return wiringFromReading({ readingOhm, leadOhm: ohm, coils, hypotheses: different });
}

// What a meter should show at the amplifier's end of a speaker lead, and which wiring a reading fits.
import { networkOhm } from '../../drivers/loads/coil-network.ts';
import { dcrExpect, type ReadingOhm } from '../../drivers/loads/coil-reading.ts';
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

/** By the coils' direct-current resistance, else by their labels; a lead of unknown size counts as nothing. */
export function expectedReading(view: PlanView, lead: PartOf<'lead'>, coilC = roomC): ExpectedReading | undefined {
  const lane = laneOfLead(view, lead);
  const network = lane?.load.network;
  if (lane === undefined || network === undefined) return undefined;
  const re = coilOhms(lane, 're');
  const ohms = re ?? coilOhms(lane, 'nominal');
  if (ohms === undefined) return undefined;
  const ohm = networkOhm(network, ohms);
  if (ohm <= 0) return undefined;
  return dcrExpect({ ohm, coilsAre: re === undefined ? 'nominal' : 're', leadOhm: leadOhm(lead) ?? 0, coilC });
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
  const coils = coilOhms(lane, 're');
  if (coils === undefined || reading.value === undefined) return undefined;
  const readingOhm = reading.value === 'open' ? Number.POSITIVE_INFINITY : reading.value;
  const seen = new Set<number>();
  const different = hypotheses(lane).filter(({ network, override }) => {
    const ohm = networkOhm(network, new Map([...coils, ...(override ?? [])]));
    const known = [...seen].some((other) => other === ohm || Math.abs(other / ohm - 1) < 1e-9);
    seen.add(ohm);
    return !known;
  });
  const ohm = (leadOhm(lead) ?? 0) + (reading.probesOhm ?? 0);
  return wiringFromReading({ readingOhm, leadOhm: ohm, coils, hypotheses: different });
}

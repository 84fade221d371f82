// What a wiring comes to: its load, what the amplifier gives into it, who gets how much, what a meter reads on it.
import { networkOhm, networkShares } from '../../drivers/loads/coil-network.ts';
import { dcrExpect, type ReadingOhm } from '../../drivers/loads/coil-reading.ts';
import { wiringFromReading } from '../../drivers/loads/coil-wiring-from-reading.ts';
import { laneDrive, minimumOhm } from '../../job/rules/loads.ts';
import type { Lane } from '../../job/rules/plan-view.ts';
import { twoMistakes, wiringHypotheses } from '../../job/rules/wiring-hypotheses.ts';
import { coilsIn, partOfTerminal } from '../../plan/networks.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { Network } from '../../plan/signal-parts.ts';
import type { NamedWiring } from './wirings.ts';

type Driver = PartOf<'driver'>;

export interface WiringFacts extends NamedWiring {
  ohm: number;
  /** Undefined: the amplifier is not rated for it, or its power is not known. */
  watt?: number;
  /** Share of the power in each coil, those left open 0. */
  shares: { coil: string; share: number }[];
  even: boolean;
  /** What the amplifier says: `below` its lowest load, `open` while that is not known. */
  amplifier: 'holds' | 'below' | 'open';
  reads: { lowOhm: ReadingOhm; midOhm: ReadingOhm; highOhm: ReadingOhm };
  /** Power in the coil that gets most of it, and what a coil stands. */
  hottestW?: number;
  coilStandsW?: number;
}

const slack = 1 - 1e-9;

/** Ohms of each coil, by label or by direct current; undefined where one is not known. */
export function coilOhmsOf(drivers: readonly Driver[], which: 'coilOhm' | 'reOhm'): Map<string, number> | undefined {
  const ohms = new Map<string, number>();
  for (const driver of drivers) {
    const ohm = driver[which];
    if (ohm === undefined) return undefined;
    for (let n = 1; n <= (driver.coils ?? 1); n++) ohms.set(`${driver.id}/${n}`, ohm);
  }
  return ohms;
}

/**
 * The facts of a wiring of `drivers` at the amplifier channel of `lane`.
 *
 * @param leadOhm  both conductors of the lead, 0 where it is not known
 * @returns null where the ohms of a coil are not known
 */
export function wiringFacts(
  wiring: NamedWiring,
  drivers: readonly Driver[],
  lane: Lane | undefined,
  leadOhm: number,
): WiringFacts | null {
  const labels = coilOhmsOf(drivers, 'coilOhm');
  if (labels === undefined) return null;
  const { network, open } = wiring;
  const direct = coilOhmsOf(drivers, 'reOhm');
  const ohm = networkOhm(network, labels);
  const shared = networkShares(network, labels);
  if (!shared.ok) return null;
  const used = [...new Set(coilsIn(network))];
  const shares = [...used, ...open].map((coil) => ({ coil, share: shared.value.shares[coil] ?? 0 }));
  const trial = lane && { ...lane, load: { ...lane.load, network }, drivers: [...drivers] };
  const least = trial && minimumOhm(trial);
  const watt = trial && laneDrive(trial)?.watt;
  const most = Math.max(...shares.map(({ share }) => share));
  const hottest = shares.find(({ share }) => share === most);
  const bearer = drivers.find(({ id }) => id === partOfTerminal(hottest?.coil ?? ''));
  const stands = bearer?.thermalW === undefined ? undefined : bearer.thermalW / (bearer.coils ?? 1);
  return {
    ...wiring,
    ohm,
    ...(watt === undefined ? {} : { watt, hottestW: watt * most }),
    ...(stands === undefined ? {} : { coilStandsW: stands }),
    shares,
    even: open.length === 0 && shared.value.balanced,
    amplifier: least === undefined ? 'open' : ohm < least * slack ? 'below' : 'holds',
    reads: dcrExpect({
      ohm: networkOhm(network, direct ?? labels),
      coilsAre: direct === undefined ? 'nominal' : 're',
      leadOhm,
      coilC: 20,
    }),
  };
}

export interface WrongReading {
  what: string;
  reads: ReadingOhm;
  /** Whether the meter alone tells it from what is planned. */
  told: boolean;
}

/** What else the meter might show on a lead that is to be wired so, by one mistake, the lowest reading first. */
export function wrongReadings(
  chosen: NamedWiring,
  others: readonly NamedWiring[],
  drivers: readonly Driver[],
  leadOhm: number,
): WrongReading[] {
  const coils = coilOhmsOf(drivers, 'reOhm');
  if (coils === undefined) return [];
  const { network } = chosen;
  const planned = networkOhm(network, coils);
  const openCoil = (coil: string) => new Map([...coils, [coil, Number.POSITIVE_INFINITY]]);
  const cases: { what: string; network: Network; ohms: ReadonlyMap<string, number> }[] = [
    ...others.map(({ name, network: other }) => ({ what: name, network: other, ohms: coils })),
    ...[...new Set(coilsIn(network))].map((coil) => ({
      what: `coil ${coil} not connected, or broken`,
      network,
      ohms: openCoil(coil),
    })),
    {
      what: 'a short in the lead or at the terminals',
      network,
      ohms: new Map([...coils.keys()].map((coil) => [coil, 0])),
    },
  ];
  const seen = new Set<number>();
  return cases
    .map(({ what, network: wired, ohms }) => ({ what, ohm: networkOhm(wired, ohms) }))
    .filter(({ ohm }) => {
      const key = Number.isFinite(ohm) ? Number(ohm.toPrecision(9)) : Number.POSITIVE_INFINITY;
      if (Math.abs(key - planned) < 1e-9 * planned) return false;
      return seen.has(key) ? false : seen.add(key) !== undefined;
    })
    .sort((a, b) => a.ohm - b.ohm)
    .map(({ what, ohm }) => {
      const readingOhm = ohm + leadOhm;
      const { verdict } = wiringFromReading({
        readingOhm,
        leadOhm,
        coils,
        hypotheses: [{ name: 'as planned', network }],
      });
      return { what, reads: Number.isFinite(ohm) ? readingOhm : 'open', told: verdict === 'none' };
    });
}

/**
 * What a reading means on a lead that is to be wired so: as planned, one mistake, or two where no single one explains it.
 * Null where the coils are not known.
 */
export function readingMeans(
  { network, name }: Pick<NamedWiring, 'network' | 'name'>,
  drivers: readonly Driver[],
  leadOhm: number,
  readingOhm: number,
): string | null {
  const coils = coilOhmsOf(drivers, 'reOhm');
  if (coils === undefined) return null;
  const fitting = (hypotheses: ReturnType<typeof twoMistakes>) =>
    wiringFromReading({ readingOhm, leadOhm, coils, hypotheses }).matches;
  const single = fitting(wiringHypotheses(network));
  const mistakes = single.filter((match) => match !== 'as planned');
  if (single.includes('as planned')) {
    const also = mistakes.length === 0 ? '' : ` So would ${eitherOf(mistakes)}: unplug a driver and read again.`;
    return `That is ${name}, as it should be.${also}`;
  }
  if (single.length > 0) return `That looks like ${eitherOf(single)}.`;
  const two = fitting(twoMistakes(network));
  if (two.length > 0) return `No single mistake reads like this; two would: ${eitherOf(two)}.`;
  return 'Neither one mistake nor two read like this: check the meter, its probes, and whose lead it is.';
}

/** The first few, the nearest to the reading first. */
function eitherOf(words: readonly string[]): string {
  const shown = words.slice(0, 3);
  const more = words.length - shown.length;
  return `${shown.join(', or ')}${more > 0 ? `, or ${more} more` : ''}`;
}

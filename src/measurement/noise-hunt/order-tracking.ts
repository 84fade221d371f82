// Which tones follow the engine: the same system recorded at two speeds.
import { assertRange } from '../../base/assert.ts';
import type { FoundTone } from './tone-search.ts';

export type ToneClass =
  | 'alternator ripple'
  | 'alternator phase'
  | 'engine or ignition'
  | 'mains'
  | 'fixed'
  /** In one of the recordings only. */
  | 'in one only';

/** A tone of both recordings, or of one. */
export interface TrackedTone {
  /** At the lower and at the higher speed; null where it was not heard. */
  firstHz: number | null;
  secondHz: number | null;
  class: ToneClass;
  /** Periods per turn of the crankshaft; null where it does not follow the engine. */
  order: number | null;
  /** The louder of the two, dB re a full-scale square. */
  levelDbfs: number;
  /** A tone that stands still and happens to sit where another one would move to. */
  overlaps: boolean;
}

/** How the speeds are known: from a counter, or read off the dashboard's needle. */
export type SpeedSource = 'counter' | 'needle';

const TRACKS = { counter: 0.012, needle: 0.03 } as const;
const FIXED_HZ = 0.6;
const FIXED_SHARE = 0.0015;
export const MAINS_HZ = [50, 60];
const MAINS_ORDERS = 10;
/** Members that make a family; one alone may be anything. */
export const LEAST_FAMILY = 2;
const RIPPLE_FROM = 55;
const PHASE_FROM = 9;
const RATIO_STEP = 0.001;

/**
 * Frequencies of an alternator: one turn of current a pole pair, and six pulses a turn after the full-wave bridge of three
 * phases.
 *
 * @param rpm         of the crankshaft, 1 .. 20 000
 * @param pulleyRatio turns of the alternator for one of the crankshaft, 0.5 .. 10
 * @param polePairs   1 .. 20
 * Source: derivation; three phases, six-pulse rectifier.
 */
export function alternatorHz(
  rpm: number,
  pulleyRatio: number,
  polePairs: number,
): { phaseHz: number; rippleHz: number } {
  assertRange('rpm', rpm, 1, 20_000);
  assertRange('pulleyRatio', pulleyRatio, 0.5, 10);
  assertRange('polePairs', polePairs, 1, 20);
  const phaseHz = (rpm / 60) * pulleyRatio * polePairs;
  return { phaseHz, rippleHz: 6 * phaseHz };
}

/** The speed ratio itself, where it was read off a needle: the one for which most of the sound pairs up. */
function trueRatio(first: readonly FoundTone[], second: readonly FoundTone[], ratio: number): number {
  let best = { weight: 0, ratio };
  for (let step = -Math.round(TRACKS.needle / RATIO_STEP); step <= TRACKS.needle / RATIO_STEP; step++) {
    const tried = ratio * (1 + step * RATIO_STEP);
    let weight = 0;
    for (const one of first) {
      for (const two of second) {
        const off = Math.abs(two.fHz / one.fHz / tried - 1);
        if (off < 0.004) weight += (1 - off / 0.004) * 10 ** (Math.min(one.levelDbfs, two.levelDbfs) / 40);
      }
    }
    if (weight > best.weight) best = { weight, ratio: tried };
  }
  return best.ratio;
}

/** Whether a frequency is one of a mains family of 50 or 60 Hz. */
export const inMainsFamily = (fHz: number, mainsHz: number): boolean => {
  const order = Math.round(fHz / mainsHz);
  return order >= 1 && order <= MAINS_ORDERS && Math.abs(fHz - order * mainsHz) < FIXED_HZ;
};

/** Whether two tones are one that stands still. */
export const standsStill = (one: Pick<FoundTone, 'fHz'>, two: Pick<FoundTone, 'fHz'>): boolean =>
  Math.abs(two.fHz - one.fHz) < Math.max(FIXED_HZ, FIXED_SHARE * one.fHz);

/** What turns that often for each turn of the crankshaft. */
export function classOfOrder(order: number): 'alternator ripple' | 'alternator phase' | 'engine or ignition' {
  if (order >= RIPPLE_FROM) return 'alternator ripple';
  return order >= PHASE_FROM ? 'alternator phase' : 'engine or ignition';
}

/**
 * Pairs the tones of two recordings and says what each comes from.
 *
 * Mains families are taken out first (two members at least, present in both), then tones that moved with the engine, then
 * tones that stood still.
 *
 * @param first   tones at the lower speed, with its rpm, 100 .. 20 000
 * @param second  tones at the higher speed; the speeds must differ by 5 % or more
 * @param speed   `needle` allows 3 % and finds the ratio itself
 * @returns in the order of the first recording, then what only the second has
 * @throws RangeError speeds outside their range or too close to each other
 * Source: own method; orders of belt-driven three-phase alternators and four-stroke engines (derivation).
 */
export function trackedTones(
  first: { rpm: number; tones: readonly FoundTone[] },
  second: { rpm: number; tones: readonly FoundTone[] },
  speed: SpeedSource = 'counter',
): TrackedTone[] {
  assertRange('rpm', first.rpm, 100, 20_000);
  assertRange('rpm', second.rpm, first.rpm * 1.05, 20_000);
  const asked = second.rpm / first.rpm;
  const ratio = speed === 'needle' ? trueRatio(first.tones, second.tones, asked) : asked;
  const partnerOf = (fits: (two: FoundTone) => number | null): FoundTone | null => {
    let best: { two: FoundTone; off: number } | null = null;
    for (const two of second.tones) {
      if (used.has(two)) continue;
      const off = fits(two);
      if (off !== null && (!best || off < best.off)) best = { two, off };
    }
    return best?.two ?? null;
  };
  const used = new Set<FoundTone>();
  const pairs = new Map<FoundTone, { two: FoundTone; class: ToneClass }>();
  for (const mainsHz of MAINS_HZ) {
    const members = first.tones.flatMap((one) => {
      if (pairs.has(one) || !inMainsFamily(one.fHz, mainsHz)) return [];
      const two = second.tones.find((other) => !used.has(other) && standsStill(one, other));
      return two ? [{ one, two }] : [];
    });
    if (members.length < LEAST_FAMILY) continue;
    for (const { one, two } of members) {
      pairs.set(one, { two, class: 'mains' });
      used.add(two);
    }
  }
  const within = TRACKS[speed === 'needle' ? 'counter' : speed];
  for (const one of first.tones) {
    if (pairs.has(one)) continue;
    const two = partnerOf((other) => {
      const off = Math.abs(other.fHz / one.fHz / ratio - 1);
      return off < within ? off : null;
    });
    // One that has a partner in its own place as well is left there: it may only happen to sit in the other's way.
    if (!two || partnerOf((other) => (standsStill(one, other) ? 0 : null))) continue;
    pairs.set(one, { two, class: classOfOrder(one.fHz / (first.rpm / 60)) });
    used.add(two);
  }
  for (const one of first.tones) {
    if (pairs.has(one)) continue;
    const two = partnerOf((other) => (standsStill(one, other) ? Math.abs(other.fHz - one.fHz) : null));
    if (!two) continue;
    pairs.set(one, { two, class: 'fixed' });
    used.add(two);
  }
  const overlaps = (one: FoundTone): boolean =>
    second.tones.some((two) => Math.abs(two.fHz / one.fHz / ratio - 1) < within);
  return [
    ...first.tones.map((one): TrackedTone => {
      const pair = pairs.get(one);
      const found = pair?.class ?? 'in one only';
      const moves = found.startsWith('alternator') || found.startsWith('engine');
      return {
        firstHz: one.fHz,
        secondHz: pair?.two.fHz ?? null,
        class: found,
        order: moves ? one.fHz / (first.rpm / 60) : null,
        levelDbfs: Math.max(one.levelDbfs, pair?.two.levelDbfs ?? Number.NEGATIVE_INFINITY),
        overlaps: (found === 'fixed' || found === 'mains') && overlaps(one),
      };
    }),
    ...second.tones
      .filter((two) => !used.has(two))
      .map(
        (two): TrackedTone => ({
          firstHz: null,
          secondHz: two.fHz,
          class: 'in one only',
          order: null,
          levelDbfs: two.levelDbfs,
          overlaps: false,
        }),
      ),
  ];
}

/**
 * Pulley ratio times pole pairs of the alternator, from its ripple: a sixth of the ripple's order.
 *
 * @returns null where no ripple was found
 */
export function alternatorProduct(
  tones: readonly { class: string; order: number | null; levelDbfs: number }[],
): number | null {
  const ripples = tones.filter((tone) => tone.class === 'alternator ripple' && tone.order !== null);
  const loudest = ripples.reduce<(typeof ripples)[number] | null>(
    (a, b) => (!a || b.levelDbfs > a.levelDbfs ? b : a),
    null,
  );
  return loudest?.order ? loudest.order / 6 : null;
}

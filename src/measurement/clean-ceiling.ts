// How loud a driver may play before it distorts or gives way: the first crossing of a limit over rising steps.
import { assert } from '../base/assert.ts';

/** What one step of a rising-level take read in one band. */
export interface CeilingStep {
  /** Level of the step, dB re any constant. */
  levelDb: number;
  /** Total harmonic distortion re the fundamental, dB; null where nothing was read. */
  thdDb: number | null;
  /** What noise alone would read as, dB; null where that is nothing. */
  noiseThdDb: number | null;
  /** What the step lacks of the gain of the lowest one, dB, positive; null where it is not known. */
  compressionDb: number | null;
}

/** The limits that count; one that is null is left out. */
export interface CeilingLimits {
  thdDb: number | null;
  compressionDb: number | null;
  /** Standard deviation of one reading, dB; 0.5 and 0.1 when absent. */
  thdSigmaDb?: number;
  compressionSigmaDb?: number;
}

export type CeilingStatus = 'crossed' | 'not-reached' | 'above-at-first-step' | 'cannot-say';

/** Where the readings first rise over one limit, or both. */
export interface Crossing {
  status: CeilingStatus;
  /** Level of the crossing, or the one that `bound` speaks of; null where nothing can be said. */
  levelDb: number | null;
  /** at-most: not above `levelDb`, how far below is not known; at-least: not below it. */
  bound: 'exact' | 'at-most' | 'at-least';
  /** The steps on either side of the crossing, dB. */
  bracketDb: [number, number] | null;
  /** One standard deviation of an exact crossing, dB. */
  sigmaDb: number | null;
}

export interface CleanCeiling extends Crossing {
  /** Which limit is met first; null where none is. */
  limit: 'thd' | 'compression' | null;
  thd: Crossing | null;
  compression: Crossing | null;
}

/** A reading this far over what noise would read as is true to half a decibel; less is an upper bound. */
const CLEAR_DB = 10;
/** An upper bound stands this far over the larger of reading and noise. */
const BOUND_DB = 3;
const THD_SIGMA_DB = 0.5;
const COMPRESSION_SIGMA_DB = 0.1;

interface Point {
  levelDb: number;
  value: number;
  /** under: on or below the limit, even if only by an upper bound; open: an upper bound above it. */
  side: 'under' | 'over' | 'open';
  clear: boolean;
}

/**
 * The highest level at which neither distortion nor compression exceeds its limit.
 *
 * For each limit the first upward crossing over rising steps counts, by a straight line of decibels over decibels
 * between the steps on either side of it; the ceiling is the smaller of the two. A distortion that does not stand 10 dB
 * over what noise would read as is an upper bound: it may show that a step is under the limit, but no line is drawn from
 * it, so the ceiling is then at most the step above.
 *
 * @param steps   at least one, levels rising; all in one band
 * @param limits  dB, at least one that is not null; compression limit > 0
 * @returns `crossed` with its value and bracket; `not-reached`: at least the highest step known to be under the limits;
 *   `above-at-first-step`: below the lowest step that could be read; `cannot-say`: no step was clear of the noise
 * @throws Error  steps that do not rise, or no limit: the caller's mistake
 * Accuracy: 0.01 dB (test/vectors/distortion.json); sigma combines the reading's error over the slope with what a
 *   straight line may miss of a bend between two steps, a third of a uniform error over the step (own simulation)
 * Source: own method on IEC 60268-21 stepped tests; THD re the fundamental.
 * @example steps at -9 and -6 dB with THD -34.05 and -30.35 dB, limit -30.46 dB: crossed at -6.09 dB
 */
export function cleanCeiling(steps: readonly CeilingStep[], limits: CeilingLimits): CleanCeiling {
  assert(steps.length > 0, 'a ceiling needs a step');
  assert(
    steps.every(({ levelDb }, i) => i === 0 || levelDb > steps[i - 1].levelDb),
    `steps must rise, got ${steps.map(({ levelDb }) => levelDb).join(', ')} dB`,
  );
  const { thdDb, compressionDb } = limits;
  assert(thdDb !== null || compressionDb !== null, 'a ceiling needs a limit');
  const thd = thdDb === null ? null : crossingOf(thdPoints(steps, thdDb), thdDb, limits.thdSigmaDb ?? THD_SIGMA_DB);
  const compression =
    compressionDb === null
      ? null
      : crossingOf(
          compressionPoints(steps, compressionDb),
          compressionDb,
          limits.compressionSigmaDb ?? COMPRESSION_SIGMA_DB,
        );
  return { ...smaller(thd, compression), thd, compression };
}

function thdPoints(steps: readonly CeilingStep[], limitDb: number): Point[] {
  return steps.flatMap(({ levelDb, thdDb, noiseThdDb }): Point[] => {
    if (thdDb === null) return [];
    const clear = noiseThdDb === null || thdDb >= noiseThdDb + CLEAR_DB;
    const value = clear ? thdDb : Math.max(thdDb, noiseThdDb) + BOUND_DB;
    return [{ levelDb, value, side: value <= limitDb ? 'under' : clear ? 'over' : 'open', clear }];
  });
}

function compressionPoints(steps: readonly CeilingStep[], limitDb: number): Point[] {
  return steps.flatMap(({ levelDb, compressionDb }): Point[] =>
    compressionDb === null
      ? []
      : [{ levelDb, value: compressionDb, side: compressionDb <= limitDb ? 'under' : 'over', clear: true }],
  );
}

function crossingOf(points: readonly Point[], limit: number, sigma: number): Crossing {
  const over = points.findIndex(({ side }) => side === 'over');
  const before = over < 0 ? points : points.slice(0, over);
  const under = before.findLast(({ side }) => side === 'under');
  if (over < 0) {
    if (!under) return { status: 'cannot-say', levelDb: null, bound: 'exact', bracketDb: null, sigmaDb: null };
    return { status: 'not-reached', levelDb: under.levelDb, bound: 'at-least', bracketDb: null, sigmaDb: null };
  }
  const above = points[over];
  const atMost = { levelDb: above.levelDb, bound: 'at-most' as const, sigmaDb: null };
  if (!under) return { ...atMost, status: 'above-at-first-step', bracketDb: null };
  const bracketDb: [number, number] = [under.levelDb, above.levelDb];
  if (!under.clear || under !== points[over - 1]) return { ...atMost, status: 'crossed', bracketDb };
  const step = above.levelDb - under.levelDb;
  const slope = (above.value - under.value) / step;
  const span = points[points.length - 1].levelDb - points[0].levelDb;
  return {
    status: 'crossed',
    levelDb: under.levelDb + (limit - under.value) / slope,
    bound: 'exact',
    bracketDb,
    // A slope of next to nothing says no more than that the ceiling lies among the steps.
    sigmaDb: Math.min(span, Math.hypot(sigma / slope, step / Math.sqrt(12) / 3)),
  };
}

const met = ({ status }: Crossing): boolean => status === 'crossed' || status === 'above-at-first-step';

/** The limit that is met first; where the other is not known as far up, the ceiling may lie lower still. */
function smaller(thd: Crossing | null, compression: Crossing | null): Crossing & Pick<CleanCeiling, 'limit'> {
  if (!thd || !compression) {
    const only = (thd ?? compression) as Crossing;
    return { ...only, limit: met(only) ? (thd ? 'thd' : 'compression') : null };
  }
  const height = (crossing: Crossing): number => crossing.levelDb ?? Number.NEGATIVE_INFINITY;
  if (met(thd) || met(compression)) {
    const thdFirst = met(thd) && (!met(compression) || height(thd) <= height(compression));
    const [first, other] = thdFirst ? [thd, compression] : [compression, thd];
    const open =
      (!met(other) && height(other) < height(first)) || (other.bound === 'at-most' && first.bound !== 'at-most');
    return {
      ...first,
      ...(open ? { bound: 'at-most', sigmaDb: null } : {}),
      limit: thdFirst ? 'thd' : 'compression',
    };
  }
  return { ...(height(thd) <= height(compression) ? thd : compression), limit: null };
}

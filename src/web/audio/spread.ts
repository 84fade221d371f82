// How far band levels move along a path: mean power for the average, standard deviation of the level for the spread.

export interface Spread {
  /** Takes the levels of this moment, dB. */
  feed(levelsDb: ArrayLike<number>): void;
  /** One standard deviation of the level of each band so far, dB. */
  into(out: Float32Array): void;
  readonly moments: number;
}

/**
 * Spread of levels over moments, by the running sums of B. P. Welford, Technometrics 4(3), 1962: no sum of squares that
 * loses its digits. Allocates nothing after it is made.
 */
export function levelSpread(bands: number): Spread {
  const mean = new Float64Array(bands);
  const sum = new Float64Array(bands);
  let moments = 0;
  return {
    feed(levelsDb) {
      moments++;
      for (let b = 0; b < bands; b++) {
        const off = levelsDb[b] - mean[b];
        mean[b] += off / moments;
        sum[b] += off * (levelsDb[b] - mean[b]);
      }
    },
    into(out) {
      for (let b = 0; b < bands; b++) out[b] = moments < 2 ? 0 : Math.sqrt(sum[b] / (moments - 1));
    },
    get moments() {
      return moments;
    },
  };
}

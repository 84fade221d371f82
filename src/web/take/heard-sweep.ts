// Follows a sweep by ear: the band that stands most out of its own quiet is where the sweep is. For a player elsewhere.

const aboveQuietDb = 12;

export interface HeardSweep {
  /** @returns the frequency that sounds now, or null while nothing stands out of the quiet */
  feed(momentDb: ArrayLike<number>, fHz: ArrayLike<number>): number | null;
}

export function heardSweep(): HeardSweep {
  let quietDb: Float64Array | null = null;
  return {
    feed(momentDb, fHz) {
      if (!quietDb || quietDb.length !== momentDb.length) quietDb = Float64Array.from(momentDb);
      let best = -1;
      let bestDb = aboveQuietDb;
      for (let b = 0; b < momentDb.length; b++) {
        // The floor of the measurement is no quiet: a band that has not been measured yet stands there.
        if (momentDb[b] < -139) continue;
        if (quietDb[b] < -139) quietDb[b] = momentDb[b];
        quietDb[b] = Math.min(quietDb[b], momentDb[b]);
        const above = momentDb[b] - quietDb[b];
        if (above > bestDb) {
          best = b;
          bestDb = above;
        }
      }
      return best < 0 ? null : fHz[best];
    },
  };
}

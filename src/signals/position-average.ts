// Several microphone positions made one: their power mean, how far they differ, and how much to trust them.
import { assertRange } from '../base/assert.ts';

function assertPositions(positionsDb: readonly ArrayLike<number>[], least: number): void {
  if (positionsDb.length < least) throw new RangeError(`positions must be ${least} or more, got ${positionsDb.length}`);
  for (const levels of positionsDb) {
    if (levels.length !== positionsDb[0].length) {
      throw new RangeError(
        `positions must stand on one grid, got ${positionsDb[0].length} and ${levels.length} levels`,
      );
    }
    for (let k = 0; k < levels.length; k++) assertRange('levelDb', levels[k], -1500, 1500);
  }
}

/**
 * Power mean over positions, per frequency: 10 log10(mean(10^(dB/10))).
 *
 * @param positionsDb  1 or more responses on one grid, dB, -1500 .. 1500; not changed
 * @returns dB, as long as each response
 * @throws RangeError  no position, grids that differ, a level outside its range
 * Accuracy: 1e-7 dB (test/vectors/smoothing.json)
 * @example positionPowerMeanDb([[0], [10]]) // 7.4036: mean of 1 and 10 is 5.5
 */
export function positionPowerMeanDb(positionsDb: readonly ArrayLike<number>[]): Float64Array {
  assertPositions(positionsDb, 1);
  const out = new Float64Array(positionsDb[0].length);
  for (let k = 0; k < out.length; k++) {
    let power = 0;
    for (const levels of positionsDb) power += 10 ** (levels[k] / 10);
    out[k] = 10 * Math.log10(power / positionsDb.length);
  }
  return out;
}

/**
 * Sample standard deviation (n - 1) of dB over positions, per frequency.
 *
 * Smooth each response first (1/6 octave), or it measures comb teeth. Below 2 dB the place can be equalised, from 2 to
 * 4 dB partly, above 4 dB it depends on where the head is: leave it.
 *
 * @param positionsDb  2 or more responses on one grid, dB, -1500 .. 1500; not changed
 * @returns dB, >= 0, as long as each response
 * @throws RangeError  fewer than 2 positions, grids that differ, a level outside its range
 * Accuracy: 1e-7 dB (test/vectors/smoothing.json)
 */
export function positionSpreadDb(positionsDb: readonly ArrayLike<number>[]): Float64Array {
  assertPositions(positionsDb, 2);
  const count = positionsDb.length;
  const out = new Float64Array(positionsDb[0].length);
  for (let k = 0; k < out.length; k++) {
    let mean = 0;
    for (const levels of positionsDb) mean += levels[k] / count;
    let squares = 0;
    for (const levels of positionsDb) squares += (levels[k] - mean) ** 2;
    out[k] = Math.sqrt(squares / (count - 1));
  }
  return out;
}

/**
 * Weight of each frequency in a fit, from the spread over positions: 1 / (1 + (spread / 3 dB)^2).
 *
 * @param spreadDb  >= 0; not changed
 * @returns (0, 1], as long as spreadDb
 * @throws RangeError  a spread outside 0 .. 3000 dB
 * Source: own choice: half the weight at 3 dB, the middle of "partly equalisable".
 */
export function positionWeight(spreadDb: ArrayLike<number>): Float64Array {
  return Float64Array.from(spreadDb, (spread) => {
    assertRange('spreadDb', spread, 0, 3000);
    return 1 / (1 + (spread / 3) ** 2);
  });
}

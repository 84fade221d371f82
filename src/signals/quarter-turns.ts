// Twiddle factors: a quarter of the circle in equal steps. What lies beyond follows by signs or short products.

const tables = new Map<number, Float64Array>();
/** Tables of longer circles are made anew each time rather than kept: 8 MB at most stay in memory for one length. */
const LARGEST_KEPT = 1 << 22;

/**
 * Cosines and sines of 2 pi k / steps for k = 0 .. floor(steps / 4), one pair after the other.
 *
 * Each comes straight from `cos` and `sin` of an angle within an eighth of a turn, the rest by mirroring: no recurrence, so
 * nothing adds up, and the ends are exactly 0 and 1.
 *
 * @param steps  of the whole circle, >= 1
 * @returns length 2 (floor(steps / 4) + 1); shared, so not to be changed
 */
export function quarterTurns(steps: number): Float64Array {
  let table = tables.get(steps);
  if (!table) {
    table = steps % 8 === 0 ? mirrored(steps) : direct(steps);
    if (steps <= LARGEST_KEPT) tables.set(steps, table);
  }
  return table;
}

function direct(steps: number): Float64Array {
  const last = Math.floor(steps / 4);
  const table = new Float64Array(2 * last + 2);
  for (let k = 0; k <= last; k++) {
    table[2 * k] = Math.cos((2 * Math.PI * k) / steps);
    table[2 * k + 1] = Math.sin((2 * Math.PI * k) / steps);
  }
  if (steps % 4 === 0) table[2 * last] = 0;
  return table;
}

function mirrored(steps: number): Float64Array {
  const last = steps / 4;
  const table = new Float64Array(2 * last + 2);
  const unit = (2 * Math.PI) / steps;
  for (let k = 0; 2 * k <= last; k++) {
    const c = Math.cos(unit * k);
    const s = Math.sin(unit * k);
    table[2 * k] = c;
    table[2 * k + 1] = s;
    table[2 * (last - k)] = s;
    table[2 * (last - k) + 1] = c;
  }
  return table;
}

// Least squares of a few unknowns, damped so that a bad start does no harm.

/** The solution of a small symmetric system, or null where it has none. `matrix` is n rows of n. */
function solved(matrix: readonly Float64Array[], right: Float64Array): Float64Array | null {
  const n = right.length;
  const rows = matrix.map((row, i) => Float64Array.of(...row, right[i]));
  for (let i = 0; i < n; i++) {
    let pivot = i;
    for (let r = i + 1; r < n; r++) if (Math.abs(rows[r][i]) > Math.abs(rows[pivot][i])) pivot = r;
    [rows[i], rows[pivot]] = [rows[pivot], rows[i]];
    if (!(Math.abs(rows[i][i]) > 1e-300)) return null;
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const share = rows[r][i] / rows[i][i];
      for (let c = i; c <= n; c++) rows[r][c] -= share * rows[i][c];
    }
  }
  return Float64Array.from({ length: n }, (_, i) => rows[i][n] / rows[i][i]);
}

const squares = (values: Float64Array) => values.reduce((sum, value) => sum + value * value, 0);

export interface Fitted {
  values: Float64Array;
  /** Standard deviation of each, taken from what is left over. */
  sigma: Float64Array;
}

const STEPS = 60;
const NUDGE = 1e-6;

/**
 * The unknowns that make `residuals` smallest in the sum of squares.
 *
 * @param start      first guess; unknowns of about unit size, such as logarithms
 * @param residuals  always of the same length, larger than the number of unknowns
 * Source: D. W. Marquardt, J. SIAM 11(2), 1963, 431-441.
 */
export function leastSquares(start: readonly number[], residuals: (values: Float64Array) => Float64Array): Fitted {
  let values = Float64Array.from(start);
  let left = residuals(values);
  let sum = squares(left);
  let damping = 1e-3;
  const n = values.length;
  let normal: Float64Array[] = [];
  const slope = () => {
    const columns = Array.from(values, (_, i) => {
      const nudged = Float64Array.from(values);
      nudged[i] += NUDGE;
      return residuals(nudged).map((value, at) => (value - left[at]) / NUDGE);
    });
    const dot = (a: Float64Array, b: Float64Array) => a.reduce((total, value, at) => total + value * b[at], 0);
    normal = columns.map((a) => Float64Array.from(columns, (b) => dot(a, b)));
    return Float64Array.from(columns, (column) => -dot(column, left));
  };
  for (let step = 0; step < STEPS; step++) {
    const downhill = slope();
    let better = false;
    while (!better && damping < 1e12) {
      const damped = normal.map((row, i) => row.map((value, j) => (i === j ? value * (1 + damping) + 1e-12 : value)));
      const move = solved(damped, downhill);
      const next = move === null ? values : values.map((value, i) => value + move[i]);
      const nextLeft = residuals(next);
      const nextSum = squares(nextLeft);
      better = Number.isFinite(nextSum) && nextSum < sum;
      if (better) {
        const settled = sum - nextSum < 1e-10 * sum;
        [values, left, sum] = [next, nextLeft, nextSum];
        damping = Math.max(1e-9, damping / 5);
        if (settled) step = STEPS;
      } else damping *= 4;
    }
    if (!better) break;
  }
  slope();
  const variance = sum / Math.max(1, left.length - n);
  const sigma = Float64Array.from({ length: n }, (_, i) => {
    const unit = new Float64Array(n);
    unit[i] = 1;
    const column = solved(
      normal.map((row, r) => row.map((value, c) => (r === c ? value + 1e-12 : value))),
      unit,
    );
    return column === null ? Number.MAX_VALUE : Math.sqrt(Math.max(0, column[i] * variance));
  });
  return { values, sigma };
}

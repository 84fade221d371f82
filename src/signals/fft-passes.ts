// The passes of a power-of-two transform, on complex numbers stored as pairs (re, im): what its time is spent in.
//
// Pairs rather than two arrays: half as many streams for the caches, and a real signal is already a list of pairs. Radix 8
// rather than 4: a third fewer trips through memory. Each pass is a function of its own with one loop nest, which is
// compiled sooner than one function that holds them all.

/** An eighth of a turn on the real and the imaginary axis. */
const HALF_ROOT = Math.SQRT1_2;

/**
 * One radix-8 pass of Stockham's autosort: eight-point transforms of values `size / 8` apart, turned and stored in the
 * order in which the next pass wants them.
 *
 * @param x       pairs, length 2 * size; not changed
 * @param y       as long, overwritten
 * @param length  of the transforms still to do, a power of two >= 8; `length * stride` is the size
 * @param turns   `quarterTurns(size)`
 */
export function radix8(x: Float64Array, y: Float64Array, length: number, stride: number, turns: Float64Array): void {
  const eighth = length >> 3;
  const width = 2 * stride;
  const jump = width * eighth;
  for (let p = 0; p < eighth; p++) {
    const k = 2 * p * stride;
    // The first two factors from the table, the rest as products: as exact to half a unit in the last place, and less to fetch.
    const w1r = turns[k];
    const w1i = -turns[k + 1];
    const w2r = turns[2 * k];
    const w2i = -turns[2 * k + 1];
    const w3r = w1r * w2r - w1i * w2i;
    const w3i = w1r * w2i + w1i * w2r;
    const w4r = w2r * w2r - w2i * w2i;
    const w4i = 2 * w2r * w2i;
    const w5r = w1r * w4r - w1i * w4i;
    const w5i = w1r * w4i + w1i * w4r;
    const w6r = w2r * w4r - w2i * w4i;
    const w6i = w2r * w4i + w2i * w4r;
    const w7r = w3r * w4r - w3i * w4i;
    const w7i = w3r * w4i + w3i * w4r;
    const to = 8 * width * p;
    let i0 = width * p;
    for (let o = to; o < to + width; o += 2) {
      const i1 = i0 + jump;
      const i2 = i1 + jump;
      const i3 = i2 + jump;
      const i4 = i3 + jump;
      const i5 = i4 + jump;
      const i6 = i5 + jump;
      const i7 = i6 + jump;
      const s0r = x[i0] + x[i4];
      const s0i = x[i0 + 1] + x[i4 + 1];
      const d0r = x[i0] - x[i4];
      const d0i = x[i0 + 1] - x[i4 + 1];
      const s2r = x[i2] + x[i6];
      const s2i = x[i2 + 1] + x[i6 + 1];
      const d2r = x[i2] - x[i6];
      const d2i = x[i2 + 1] - x[i6 + 1];
      const s1r = x[i1] + x[i5];
      const s1i = x[i1 + 1] + x[i5 + 1];
      const d1r = x[i1] - x[i5];
      const d1i = x[i1 + 1] - x[i5 + 1];
      const s3r = x[i3] + x[i7];
      const s3i = x[i3 + 1] + x[i7 + 1];
      const d3r = x[i3] - x[i7];
      const d3i = x[i3 + 1] - x[i7 + 1];
      i0 += 2;
      const o1 = o + width;
      const o2 = o1 + width;
      const o3 = o2 + width;
      const o4 = o3 + width;
      const o5 = o4 + width;
      const o6 = o5 + width;
      const o7 = o6 + width;
      // Even outputs: a four-point transform of the sums.
      const ar = s0r + s2r;
      const ai = s0i + s2i;
      const br = s1r + s3r;
      const bi = s1i + s3i;
      y[o] = ar + br;
      y[o + 1] = ai + bi;
      const u4r = ar - br;
      const u4i = ai - bi;
      y[o4] = u4r * w4r - u4i * w4i;
      y[o4 + 1] = u4r * w4i + u4i * w4r;
      const cr = s0r - s2r;
      const ci = s0i - s2i;
      const er = s1r - s3r;
      const ei = s1i - s3i;
      const u2r = cr + ei;
      const u2i = ci - er;
      y[o2] = u2r * w2r - u2i * w2i;
      y[o2 + 1] = u2r * w2i + u2i * w2r;
      const u6r = cr - ei;
      const u6i = ci + er;
      y[o6] = u6r * w6r - u6i * w6i;
      y[o6 + 1] = u6r * w6i + u6i * w6r;
      // Odd outputs: the same of the differences, turned by eighths.
      const fr = d0r + d2i;
      const fi = d0i - d2r;
      const gr = d0r - d2i;
      const gi = d0i + d2r;
      const h1r = (d1r + d1i) * HALF_ROOT;
      const h1i = (d1i - d1r) * HALF_ROOT;
      const h3r = (d3i - d3r) * HALF_ROOT;
      const h3i = -(d3i + d3r) * HALF_ROOT;
      const mr = h1r + h3r;
      const mi = h1i + h3i;
      const nr = h1r - h3r;
      const ni = h1i - h3i;
      const u1r = fr + mr;
      const u1i = fi + mi;
      y[o1] = u1r * w1r - u1i * w1i;
      y[o1 + 1] = u1r * w1i + u1i * w1r;
      const u5r = fr - mr;
      const u5i = fi - mi;
      y[o5] = u5r * w5r - u5i * w5i;
      y[o5 + 1] = u5r * w5i + u5i * w5r;
      const u3r = gr + ni;
      const u3i = gi - nr;
      y[o3] = u3r * w3r - u3i * w3i;
      y[o3 + 1] = u3r * w3i + u3i * w3r;
      const u7r = gr - ni;
      const u7i = gi + nr;
      y[o7] = u7r * w7r - u7i * w7i;
      y[o7 + 1] = u7r * w7i + u7i * w7r;
    }
  }
}

/** The last pass where four values are left to combine; nothing is turned any more. */
export function lastRadix4(x: Float64Array, y: Float64Array, stride: number): void {
  const width = 2 * stride;
  for (let a = 0; a < width; a += 2) {
    const b = a + width;
    const c = b + width;
    const d = c + width;
    const sumR = x[a] + x[c];
    const sumI = x[a + 1] + x[c + 1];
    const lessR = x[a] - x[c];
    const lessI = x[a + 1] - x[c + 1];
    const otherSumR = x[b] + x[d];
    const otherSumI = x[b + 1] + x[d + 1];
    const otherLessR = x[b] - x[d];
    const otherLessI = x[b + 1] - x[d + 1];
    y[a] = sumR + otherSumR;
    y[a + 1] = sumI + otherSumI;
    y[b] = lessR + otherLessI;
    y[b + 1] = lessI - otherLessR;
    y[c] = sumR - otherSumR;
    y[c + 1] = sumI - otherSumI;
    y[d] = lessR - otherLessI;
    y[d + 1] = lessI + otherLessR;
  }
}

/** The last pass where two values are left. */
export function lastRadix2(x: Float64Array, y: Float64Array, stride: number): void {
  const width = 2 * stride;
  for (let a = 0; a < width; a++) {
    const one = x[a];
    const other = x[a + width];
    y[a] = one + other;
    y[a + width] = one - other;
  }
}

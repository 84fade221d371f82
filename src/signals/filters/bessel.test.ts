import { expect, test } from 'vitest';
import { besselPrototype } from './bessel.ts';

/** Reverse Bessel polynomials as printed (Thomson 1949; Krall and Frink 1949), highest power first. */
const PUBLISHED: Record<number, number[]> = {
  1: [1, 1],
  2: [1, 3, 3],
  3: [1, 6, 15, 15],
  4: [1, 10, 45, 105, 105],
  5: [1, 15, 105, 420, 945, 945],
  6: [1, 21, 210, 1260, 4725, 10395, 10395],
  7: [1, 28, 378, 3150, 17325, 62370, 135135, 135135],
  8: [1, 36, 630, 6930, 51975, 270270, 945945, 2027025, 2027025],
};

test('the sections multiplied out are the published polynomials', () => {
  for (const [order, coefficients] of Object.entries(PUBLISHED)) {
    // By phase the product of all poles is 1; undo that scale, then multiply (s^2 + w0/q s + w0^2) together.
    const scale = coefficients[coefficients.length - 1] ** (1 / Number(order));
    let product = [1];
    for (const { w0, q } of besselPrototype(Number(order), 'phase')) {
      const w = w0 * scale;
      const factor = q === null ? [1, w] : [1, w / q, w * w];
      const next = new Array<number>(product.length + factor.length - 1).fill(0);
      product.forEach((a, i) => {
        factor.forEach((b, j) => {
          next[i + j] += a * b;
        });
      });
      product = next;
    }
    expect(product.length).toBe(coefficients.length);
    coefficients.forEach((want, k) => {
      expect(Math.abs(product[k] / want - 1)).toBeLessThan(1e-12);
    });
  }
});

test('normalised by magnitude, frequencies and Qs are those of an independent implementation', () => {
  // SciPy 1.17.1, besselap(n, norm='mag'): modulus of the poles and the Q they give.
  const want = [
    [4, 1.60335752, 0.80553828],
    [4, 1.43017156, 0.52193458],
    [8, 2.18872623, 1.22566943],
    [8, 1.95319576, 0.71085207],
    [8, 1.8320926, 0.55960916],
    [8, 1.77846591, 0.50599107],
  ];
  for (const [order, w0, q] of want) {
    const found = besselPrototype(order, 'magnitude').find((section) => Math.abs(section.w0 - w0) < 1e-8);
    expect(found?.q).toBeCloseTo(q, 7);
  }
});

test('the delay falls from 1 as theory says: 1 - w^(2n) / |theta(jw)|^2', () => {
  const order = 6;
  const coefficients = PUBLISHED[order];
  const scale = coefficients[order] ** (1 / order);
  // Group delay of the sections at w of the published scale, from their phase by a small step.
  const phase = (w: number) =>
    besselPrototype(order, 'phase').reduce((sum, { w0, q }) => {
      const x = w / scale / w0;
      return sum - (q === null ? Math.atan(x) : Math.atan2(x / q, 1 - x * x));
    }, 0);
  for (const w of [0.01, 1, 2, 4, 8]) {
    let re = 0;
    let im = 0;
    for (const c of coefficients) [re, im] = [c - im * w, re * w];
    const delay = -(phase(w + 1e-5) - phase(w - 1e-5)) / 2e-5;
    expect(delay).toBeCloseTo(1 - w ** (2 * order) / (re * re + im * im), 8);
  }
});

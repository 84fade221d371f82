import { expect, test } from 'vitest';
import { gauss } from '../../base/random.ts';
import { realFft } from '../fft.ts';
import { crossoverSections } from './crossover.ts';
import { equaliserBandSection } from './equaliser-band.ts';
import { filtered, sectionFilter } from './section-filter.ts';
import { sectionsResponse } from './sections.ts';

test('samples agree with an independent implementation of sections in series', () => {
  // SciPy 1.17.1: sosfilt(butter(4, 100, 'hp', fs=48000, output='sos'), x), printed to eight digits.
  const sections = crossoverSections({ family: 'butterworth', order: 4, fHz: 100 }, 'high-pass', 48000);
  const want = [0.98304241, 0.45789563, -0.29562268, -0.04059706, -0.03989118, 0.94384993, -1.05516891, 0.25767253];
  const got = filtered(sections, [1, 0.5, -0.25, 0, 0, 1, -1, 0.3]);
  want.forEach((value, n) => {
    expect(Math.abs(got[n] - value)).toBeLessThan(6e-9);
  });
});

test('the spectrum of the impulse response is the response, for a narrow band at 20 Hz and 96 kHz', () => {
  const rateHz = 96000;
  const sections = [
    equaliserBandSection({ type: 'peaking', fHz: 20, gainDb: 6, q: 4 }, rateHz),
    ...crossoverSections({ family: 'linkwitz-riley', order: 4, fHz: 80 }, 'low-pass', rateHz),
  ];
  const size = 2 ** 18;
  const impulse = new Float64Array(size);
  impulse[0] = 1;
  const { re, im } = realFft(filtered(sections, impulse));
  const bins = [0, 20, 54, 55, 100, 219, 500, 3000];
  const want = sectionsResponse(
    sections,
    bins.map((k) => (k * rateHz) / size),
    rateHz,
  );
  bins.forEach((k, i) => {
    expect(Math.abs(re[k] - want.re[i])).toBeLessThan(1e-9);
    expect(Math.abs(im[k] - want.im[i])).toBeLessThan(1e-9);
  });
});

test('blocks of any length give the samples of the whole, and may be filtered in place', () => {
  const sections = crossoverSections({ family: 'bessel', order: 5, fHz: 900 }, 'low-pass', 48000);
  const signal = Float64Array.from({ length: 1000 }, (_, n) => gauss(3, n));
  const whole = filtered(sections, signal);
  const filter = sectionFilter(sections);
  const pieces = signal.slice();
  for (let at = 0, length = 1; at < pieces.length; at += length, length = (length * 7) % 101) {
    const block = pieces.subarray(at, at + length);
    filter.process(block, block);
  }
  expect(pieces).toEqual(whole);
  filter.reset();
  const again = new Float64Array(signal.length);
  filter.process(signal, again);
  expect(again).toEqual(whole);
});

test('single-precision blocks lose only their own rounding, not the state', () => {
  const sections = [equaliserBandSection({ type: 'peaking', fHz: 25, gainDb: 9, q: 8 }, 96000)];
  const signal = Float64Array.from({ length: 96000 }, (_, n) =>
    Math.fround(0.3 * Math.sin((2 * Math.PI * 25 * n) / 96000)),
  );
  const exact = filtered(sections, signal);
  const single = new Float32Array(signal.length);
  sectionFilter(sections).process(Float32Array.from(signal), single);
  for (let n = 0; n < signal.length; n++) expect(single[n]).toBe(Math.fround(exact[n]));
});

test('no section copies, the input is not changed, and a wrong output length is refused', () => {
  const signal = new Float64Array([1, 2, 3]);
  expect([...filtered([], signal)]).toEqual([1, 2, 3]);
  filtered(crossoverSections({ family: 'butterworth', order: 2, fHz: 100 }, 'high-pass', 48000), signal);
  expect([...signal]).toEqual([1, 2, 3]);
  expect(() => sectionFilter([]).process(signal, new Float64Array(2))).toThrow(
    'out must be as long as block (3), got 2',
  );
});

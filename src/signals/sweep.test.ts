import { describe, expect, test } from 'vitest';
import {
  exponentialSweep,
  harmonicLeadS,
  sweepConstantS,
  sweepFrames,
  sweepTimeS,
  synchronisedDurationS,
} from './sweep.ts';

const RATE_HZ = 48_000;
const plain = { fromHz: 50, toHz: 12_800, durationS: 2, levelDbfs: 0 };

describe('a sweep', () => {
  test('rises by as many octaves in the second half as in the first', () => {
    expect(sweepTimeS(plain, 800)).toBeCloseTo(1, 12);
    expect(sweepTimeS(plain, 50)).toBe(0);
    expect(sweepTimeS(plain, 12_800)).toBeCloseTo(2, 12);
  });

  test('passes each frequency when it says: a period there takes as long as that frequency has', () => {
    const sweep = exponentialSweep(plain, RATE_HZ);
    for (const fHz of [100, 400, 1600]) {
      const at = Math.round(sweepTimeS(plain, fHz) * RATE_HZ);
      const crossings: number[] = [];
      for (let n = at - 2000; n < at + 2000; n++) {
        if (sweep[n] < 0 && sweep[n + 1] >= 0) crossings.push(n + sweep[n] / (sweep[n] - sweep[n + 1]));
      }
      const next = crossings.findIndex((crossing) => crossing > at);
      const period = crossings[next] - crossings[next - 1];
      expect(RATE_HZ / period / fHz).toBeCloseTo(1, 1);
    }
  });

  test('has the peak that its level gives and one sample more than its duration', () => {
    const sweep = exponentialSweep({ ...plain, levelDbfs: -6.0206 }, RATE_HZ);
    expect(sweep.length).toBe(96_001);
    expect(sweep.length).toBe(sweepFrames(2, RATE_HZ));
    const peak = sweep.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
    expect(peak).toBeLessThanOrEqual(0.5 + 1e-6);
    expect(peak).toBeGreaterThan(0.4999);
    expect(sweep[0]).toBe(0);
  });

  test('counts a whole number of samples right in spite of rounding', () => {
    // 0.1 s times 44 100 is 4410.000000000001 in binary, 0.7 times 10 is 6.999999999999999.
    expect(sweepFrames(0.1, 44_100)).toBe(4411);
    expect(sweepFrames(0.7, 10)).toBe(8);
  });

  test('fades in and out by raised cosines inside its length', () => {
    const faded = exponentialSweep({ ...plain, fadeInS: 0.01, fadeOutS: 0.02 }, RATE_HZ);
    const bare = exponentialSweep(plain, RATE_HZ);
    const share = (n: number): number => faded[n] / bare[n];
    expect(share(240)).toBeCloseTo(0.5, 9);
    expect(share(480)).toBeCloseTo(1, 12);
    expect(share(50_000)).toBe(1);
    expect(share(96_001 - 481)).toBeCloseTo(0.5, 9);
    expect(faded[96_000]).toBeCloseTo(0, 12);
  });
});

describe('between the samples of its track', () => {
  test('a sweep is the same curve', () => {
    // Every second instant of twice the rate, starting a quarter of a sample early.
    const offsetS = -0.25 / RATE_HZ;
    const shape = { ...plain, fadeInS: 0.05, fadeOutS: 0.01 };
    const fine = exponentialSweep(shape, 4 * RATE_HZ, { trackRateHz: RATE_HZ });
    const shifted = exponentialSweep(shape, RATE_HZ, { offsetS });
    expect(shifted[0]).toBe(0);
    for (let n = 1; n < 90_000; n += 37) expect(shifted[n]).toBeCloseTo(fine[4 * n - 1], 9);
  });

  test('it is silent before its start and after its last sample', () => {
    const sweep = exponentialSweep(plain, RATE_HZ, { offsetS: -0.001, frames: 96_200 });
    expect(sweep.subarray(0, 48).every((x) => x === 0)).toBe(true);
    expect(sweep.subarray(96_052).every((x) => x === 0)).toBe(true);
    expect(sweep[60]).not.toBe(0);
    expect(exponentialSweep(plain, RATE_HZ, { offsetS: 3 }).length).toBe(0);
  });
});

describe('a synchronised sweep', () => {
  const durationS = synchronisedDurationS(20, 20_000, 4);
  const shape = { fromHz: 20, toHz: 20_000, durationS, levelDbfs: 0 };

  test('lasts about as long as asked and has whole cycles of its first frequency in its constant', () => {
    expect(Math.abs(durationS - 4)).toBeLessThan(0.5 * (Math.log(1000) / 20));
    expect((shape.fromHz * sweepConstantS(shape)) % 1).toBeCloseTo(0, 9);
  });

  test('has one cycle at least, however short', () => {
    expect(synchronisedDurationS(20, 200, 0.001)).toBeCloseTo(Math.log(10) / 20, 12);
  });

  test('turned at m times its angle is itself, ahead by the lead of order m', () => {
    // sin(m phase(t)) = sin(phase(t + L ln m)) up to whole turns: what makes harmonics exact copies.
    const cycles = shape.fromHz * sweepConstantS(shape);
    const phase = (t: number): number => 2 * Math.PI * cycles * Math.expm1(t / sweepConstantS(shape));
    for (const order of [2, 3, 5]) {
      for (const t of [0.1, 0.7, 1.3]) {
        const later = phase(t + harmonicLeadS(shape, order));
        expect(Math.sin(order * phase(t))).toBeCloseTo(Math.sin(later), 6);
      }
    }
  });
});

test('what is no sweep is refused', () => {
  expect(() => exponentialSweep({ ...plain, fromHz: 0 }, RATE_HZ)).toThrow('0 < fromHz < toHz');
  expect(() => exponentialSweep({ ...plain, toHz: 50 }, RATE_HZ)).toThrow(RangeError);
  expect(() => exponentialSweep({ ...plain, durationS: 0 }, RATE_HZ)).toThrow(RangeError);
});

import { expect, test } from 'vitest';
import { linearChirp } from './chirp.ts';

const RATE_HZ = 48_000;
const up = { durationS: 0.08, fromHz: 4000, toHz: 12_000, levelDbfs: -18 };

test('a chirp has the length and the peak of its description', () => {
  const chirp = linearChirp(up, RATE_HZ);
  expect(chirp.length).toBe(3840);
  const peak = chirp.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  expect(20 * Math.log10(peak)).toBeCloseTo(-18, 2);
});

test('rises over a quarter of its length and falls over the last, alike', () => {
  const slow = linearChirp({ ...up, fromHz: 12_000, toHz: 12_000, levelDbfs: 0 }, RATE_HZ);
  // At a quarter of the rate every fourth sample stands on a top: the weight itself.
  const weight = (n: number): number => Math.abs(slow[4 * n + 1]);
  expect(weight(120)).toBeCloseTo(0.5 - 0.5 * Math.cos((Math.PI * 481.5) / 960), 9);
  expect(weight(300)).toBeCloseTo(1, 9);
  for (let n = 0; n < 960; n++) expect(slow[n] ** 2 + slow[n + 1] ** 2).toBeLessThan(1.0001);
  expect(Math.abs(slow[0])).toBeLessThan(1e-5);
  expect(Math.abs(slow[3839])).toBeLessThan(1e-5);
});

test('passes the middle of its band in the middle of its time, rising or falling', () => {
  for (const shape of [up, { ...up, fromHz: 12_000, toHz: 4000 }]) {
    const chirp = linearChirp({ ...shape, levelDbfs: 0 }, RATE_HZ);
    // 8 kHz is a sixth of the rate: the phase moves by a sixth of a turn from sample to sample, so x[n+3] = -x[n].
    const [before, after] = [chirp[1918], chirp[1921]];
    expect(after).toBeCloseTo(-before, 1);
    let crossings = 0;
    for (let n = 1; n < chirp.length; n++) if (chirp[n - 1] < 0 && chirp[n] >= 0) crossings++;
    expect(Math.abs(crossings - 0.08 * 8000)).toBeLessThanOrEqual(2);
  }
});

test('an empty chirp is empty', () => {
  expect(linearChirp({ ...up, durationS: 0.000001 }, RATE_HZ).length).toBe(0);
});

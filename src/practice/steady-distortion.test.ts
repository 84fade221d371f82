import { describe, expect, test } from 'vitest';
import { trackSchema } from '../signals/track.ts';
import { type PlaceId, placeOf, type SimulatedCar, withPlace } from './car.ts';
import { carFromSeed } from './car-from-seed.ts';
import { LINEAR_STROKE } from './driver.ts';
import { renderTake } from './render-take.ts';
import { steadyDistortion } from './steady-distortion.ts';

/** Harmonics of a rendered, recorded tone over its last whole cycles: a second way to the same numbers. */
function harmonicsOfTake(car: SimulatedCar, place: PlaceId, fHz: number, levelDbfs: number): number[] {
  const track = trackSchema.parse({
    schema: 'kickpanel.track/1',
    kind: 'tone',
    rateHz: 48_000,
    channels: 2,
    durationS: 2.2,
    segments: [{ kind: 'tone', side: 'left', startS: 0.1, durationS: 2, fHz, levelDbfs }],
  });
  const recorder = {
    bits: 32 as const,
    driftPpm: 0,
    startS: 0,
    noise: { levelDb: -400, character: 'white' as const, lines: [] },
  };
  const { samples } = renderTake({ track, car, on: [place], recorder, seed: 1, mode: 'nonlinear', fHz: [fHz] });
  const frames = Math.round((Math.round(0.5 * fHz) * 48_000) / fHz);
  return [1, 2, 3, 4, 5].map((order) => {
    let re = 0;
    let im = 0;
    for (let n = 0; n < frames; n++) {
      const angle = (2 * Math.PI * order * fHz * n) / 48_000;
      re += samples[0][72_000 + n] * Math.cos(angle);
      im += samples[0][72_000 + n] * Math.sin(angle);
    }
    return (2 * Math.hypot(re, im)) / frames;
  });
}

describe('distortion of a steady sine', () => {
  const loud = { ...carFromSeed(2), volumeDb: 14 };

  test.each([
    ['sub', 40],
    ['door-left', 80],
    ['door-left', 160],
    ['tweeter-left', 4000],
  ] as [PlaceId, number][])('at the %s, %d Hz, equals a Fourier analysis of the rendered tone', (place, fHz) => {
    const [steady] = steadyDistortion({ car: loud, on: [place] }, -12, 'left', [fHz]);
    expect(steady.fHz).toBeCloseTo(fHz, 6);
    const [fundamental, ...orders] = harmonicsOfTake(loud, place, fHz, -12);
    expect(steady.fundamentalDb).toBeCloseTo(20 * Math.log10(fundamental), 1);
    orders.forEach((order, k) => {
      const pct = (100 * order) / fundamental;
      if (pct > 0.002) expect(Math.abs(20 * Math.log10(steady.orderPct[k] / pct))).toBeLessThan(0.1);
    });
    expect(steady.thdPct).toBeCloseTo(Math.hypot(...steady.orderPct), 9);
  });

  test('vanishes for a linear driver', () => {
    const { driver } = placeOf(loud, 'door-left');
    const linear = withPlace(loud, 'door-left', { driver: { ...driver, stroke: LINEAR_STROKE } });
    const [steady] = steadyDistortion({ car: linear, on: ['door-left'] }, -12, 'left', [80]);
    expect(steady.thdPct).toBeLessThan(1e-4);
    expect(steady.gainChangeDb).toBeCloseTo(0, 4);
  });

  test('of a clipped source has the orders of a clipped sine, as the path colours them', () => {
    const { driver } = placeOf(loud, 'tweeter-left');
    const linear = withPlace(carFromSeed(2), 'tweeter-left', { driver: { ...driver, stroke: LINEAR_STROKE } });
    const clipped = { ...linear, sourceClipDbfs: -18 };
    const [steady] = steadyDistortion({ car: clipped, on: ['tweeter-left'] }, -12, 'left', [3000]);
    // A sine clipped to half its height: fundamental 2/pi (asin r + r sqrt(1 - r^2)) with r = 1/2, here 4.3 dB down.
    const ratio = (2 / Math.PI) * (Math.asin(0.5) + 0.5 * Math.sqrt(0.75));
    expect(steady.gainChangeDb).toBeCloseTo(20 * Math.log10(ratio), 1);
    expect(steady.orderPct[1]).toBeGreaterThan(1);
    expect(steady.orderPct[0]).toBeLessThan(0.05 * steady.orderPct[1]);
  });

  test('rises when the volume does, to percents where the cone runs out of stroke', () => {
    const thd = (volumeDb: number) =>
      steadyDistortion({ car: { ...loud, volumeDb }, on: ['door-left'] }, -6, 'left', [63])[0].thdPct;
    expect(thd(10)).toBeGreaterThan(thd(0));
    expect(thd(22)).toBeGreaterThan(3);
  });
});

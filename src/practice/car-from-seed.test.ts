import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { cabinImpulse, cabinResponse, DIRECT_INDEX } from './cabin.ts';
import { nominalBand, placeOf } from './car.ts';
import { carFromSeed } from './car-from-seed.ts';
import { magnitude } from './complex.ts';
import { placeResponse } from './path.ts';
import { filtered, highPass2, lowPass2 } from './sections.ts';

const seeds = Array.from({ length: 24 }, (_, seed) => seed);
const RATE_HZ = 48_000;

describe('a car from a seed', () => {
  test('is the same for the same seed and another for the next', () => {
    expect(carFromSeed(5)).toEqual(carFromSeed(5));
    expect(carFromSeed(5)).not.toEqual(carFromSeed(6));
  });

  test('has mids only where it is three-way, and the seat decides which side is near', () => {
    expect(carFromSeed(1, 'ordinary', { system: 'two-way' }).places.map(({ id }) => id)).not.toContain('mid-left');
    const car = carFromSeed(1, 'ordinary', { system: 'three-way', seat: 'right' });
    expect(placeOf(car, 'mid-right').cabin.distanceM).toBeLessThan(placeOf(car, 'mid-left').cabin.distanceM);
    expect(() => placeOf(carFromSeed(1, 'ordinary', { system: 'two-way' }), 'mid-left')).toThrow('not mid-left');
  });

  test('keeps parameters where makers have them', () => {
    for (const { driver } of seeds.flatMap((seed) => carFromSeed(seed).places)) {
      const resonanceHz = Math.sqrt(driver.stiffnessNPerM / driver.massKg) / (2 * Math.PI);
      expect(resonanceHz).toBeGreaterThan(15);
      expect(resonanceHz).toBeLessThan(3000);
      expect(driver.bl).toBeGreaterThan(0.5);
      expect(driver.bl).toBeLessThan(30);
    }
  });

  test('plays each band at a level a recorder at its seat would read', () => {
    for (const seed of seeds) {
      const car = carFromSeed(seed);
      for (const place of car.places) {
        const { lowHz, highHz } = nominalBand(place);
        const fHz = Array.from({ length: 24 }, (_, k) => lowHz * (highHz / lowHz) ** ((k + 0.5) / 24));
        const power = placeResponse(car, place, fHz, RATE_HZ).reduce(
          (all, value) => all + magnitude(value) ** 2 / 24,
          0,
        );
        expect(10 * Math.log10(power)).toBeGreaterThan(-36);
        expect(10 * Math.log10(power)).toBeLessThan(-8);
      }
    }
  });
});

describe('the cabin', () => {
  const car = carFromSeed(2, 'ordinary', { system: 'three-way' });

  test('has in time the response that its formula gives', () => {
    const { cabin } = placeOf(car, 'mid-left');
    const impulse = cabinImpulse(cabin, car.zone, RATE_HZ);
    const fHz = [25, 90, 300, 1000, 4000, 15_000];
    const formula = cabinResponse(cabin, car.zone, fHz, RATE_HZ);
    fHz.forEach((f, k) => {
      let re = 0;
      let im = 0;
      for (let n = 0; n < impulse.length; n++) {
        re += impulse[n] * Math.cos((2 * Math.PI * f * (n - DIRECT_INDEX)) / RATE_HZ);
        im -= impulse[n] * Math.sin((2 * Math.PI * f * (n - DIRECT_INDEX)) / RATE_HZ);
      }
      expect(Math.hypot(re - formula[k].re, im - formula[k].im)).toBeLessThan(5e-4 * magnitude(formula[k]));
    });
  });

  /** Energy of the first 3 ms over the rest, and time for 60 dB from the fall between -5 and -25 dB. */
  function decay(impulse: Float64Array, lowHz: number, highHz: number): { earlyDb: number; decayS: number } {
    const band = filtered([highPass2(lowHz, Math.SQRT1_2, RATE_HZ), lowPass2(highHz, Math.SQRT1_2, RATE_HZ)], impulse);
    const energy = Float64Array.from(band.subarray(DIRECT_INDEX), (value) => value * value);
    for (let n = energy.length - 2; n >= 0; n--) energy[n] += energy[n + 1];
    const below = (levelDb: number) => energy.findIndex((value) => value < energy[0] * 10 ** (levelDb / 10)) / RATE_HZ;
    const late = energy[Math.round(0.003 * RATE_HZ)];
    return { earlyDb: 10 * Math.log10((energy[0] - late) / late), decayS: 3 * (below(-25) - below(-5)) };
  }

  test('decays as small upholstered rooms do: 60 dB in 45 to 130 ms above 200 Hz', () => {
    for (const seed of seeds.slice(0, 8)) {
      const one = carFromSeed(seed, 'ordinary', { system: 'three-way' });
      const impulse = cabinImpulse(placeOf(one, 'mid-left').cabin, one.zone, RATE_HZ);
      for (const [lowHz, highHz] of [
        [250, 500],
        [1000, 2000],
        [4000, 8000],
      ]) {
        const { decayS } = decay(impulse, lowHz, highHz);
        expect(decayS).toBeGreaterThan(0.045);
        expect(decayS).toBeLessThan(0.13);
      }
    }
  });

  test('lets the direct sound win in the treble of tweeters only', () => {
    const mean = (id: 'tweeter-left' | 'mid-left', lowHz: number, highHz: number) =>
      seeds.slice(0, 8).reduce((total, seed) => {
        const one = carFromSeed(seed, 'ordinary', { system: 'three-way' });
        return total + decay(cabinImpulse(placeOf(one, id).cabin, one.zone, RATE_HZ), lowHz, highHz).earlyDb / 8;
      }, 0);
    expect(mean('tweeter-left', 8000, 16_000)).toBeGreaterThan(4);
    expect(mean('mid-left', 400, 1000)).toBeLessThan(1);
  });

  test('facing away adds two reflections that rival the direct sound', () => {
    for (const { cabin } of carFromSeed(4, 'hard').places) {
      const rivals = cabin.reflections.filter(({ gain, lagS }) => Math.abs(gain) >= 0.5 && lagS <= 0.0016);
      expect(rivals.length).toBeGreaterThanOrEqual(2);
    }
  });
});

test('nothing in the bay imports a reader that it tests', () => {
  const folder = new URL('.', import.meta.url);
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (name) => name.endsWith('.ts') && !name.endsWith('.test.ts'),
  );
  expect(files.length).toBeGreaterThan(30);
  for (const name of files) {
    const text = readFileSync(new URL(name, folder), 'utf8');
    for (const [, statement, path] of text.matchAll(/^((?:import|export)\s[^;]*?)from '([^']+)'/gms)) {
      const own = /^\.\.?\/(?!\.\.)(?:faults\/)?[a-z0-9-]+\.ts$/.test(path) && !path.startsWith('../base');
      const allowed = own || /base\/(random|decibel)\.ts$/.test(path);
      const typesOnly = /signals\/track\.ts$/.test(path) && statement.startsWith('import type');
      expect(allowed || typesOnly, `${name}: ${path}`).toBe(true);
    }
  }
});

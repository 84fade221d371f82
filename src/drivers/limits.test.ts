import { expect, test } from 'vitest';
import { bindingLimit, minHighPass, toneCeiling } from './limits.ts';

// An invented midbass in a door, in round numbers.
const midbass = { fsHz: 60, reOhm: 3.2, qms: 5, qes: 0.6, sdM2: 0.014, mmsKg: 0.014, coil: { leH: 0 } };
const driven = { driver: midbass, box: { kind: 'infinite-baffle' as const }, sourceOhm: 0, xmaxM: 0.004, filters: [] };
const power = { thermalW: 80, duty: 1, ampVrms: 20 };

test('well below resonance stroke per volt is flat, so the ceiling by stroke is one voltage', () => {
  const [low, lower] = toneCeiling(driven, power, [6, 3]);
  expect([low.limit, lower.limit]).toEqual(['excursion', 'excursion']);
  expect(low.volt / lower.volt).toBeCloseTo(1, 1);
  // Level falls 12 dB an octave at one voltage: sound follows acceleration.
  expect(low.splDb - lower.splDb).toBeCloseTo(12, 0);
});

test('the smallest of the three limits binds, and the headroom is to the next', () => {
  const hot = bindingLimit(driven, { ...power, thermalW: 0.01 }, 1000, 5000);
  expect(hot.limit).toBe('thermal');
  expect(hot.driveV).toBeCloseTo(Math.sqrt(0.01 * 3.2), 6);
  const weak = bindingLimit(driven, { ...power, ampVrms: 0.5 }, 1000, 5000);
  expect(weak.limit).toBe('amplifier');
  expect(weak.headroomToNextDb).toBeCloseTo(20 * Math.log10(Math.min(weak.thermalV, weak.excursionV) / 0.5), 9);
});

test('twice the stroke or half the volts never ask for a higher high-pass', () => {
  const floor = (xmaxM: number, volts: number) => {
    const found = minHighPass({ ...driven, xmaxM }, volts, { family: 'butterworth', order: 2 });
    if (!found.ok) throw new Error('there must be one');
    return found.value.highPassHz ?? 0;
  };
  for (const volts of [5, 10, 20, 40]) {
    expect(floor(0.008, volts)).toBeLessThanOrEqual(floor(0.004, volts));
    expect(floor(0.004, volts / 2)).toBeLessThanOrEqual(floor(0.004, volts));
  }
});

test('at its floor a driver moves just its stroke', () => {
  const found = minHighPass(driven, 20, { family: 'linkwitz-riley', order: 4 });
  if (!found.ok) throw new Error('there must be one');
  expect(found.value.xPeakM).toBeCloseTo(0.004, 9);
});

test('a curve of limits is quick enough to follow a finger', () => {
  const fHz = Array.from({ length: 480 }, (_, i) => 10 * 2 ** (i / 48));
  for (let i = 0; i < 20; i++) toneCeiling(driven, power, fHz);
  const began = performance.now();
  toneCeiling(driven, power, fHz);
  // 5 ms are asked for; the rest is for a busy machine.
  expect(performance.now() - began).toBeLessThan(25);
});

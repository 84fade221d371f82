import { describe, expect, test } from 'vitest';
import { arrivalAfterRightAnchor, delaySettings, soundSpeedMPerS } from './delay-setting.ts';

const channels = [
  { arrivalS: 0.001, delayInPlaceS: 0 },
  { arrivalS: 0.003004, delayInPlaceS: 0 },
];

describe('delays', () => {
  test('bring every channel to the latest, which gets none', () => {
    const [near, far] = delaySettings(channels, 1e-5);
    expect(near.exactS).toBeCloseTo(0.002004, 12);
    expect(near.delayS).toBeCloseTo(0.002, 12);
    expect(far).toEqual({ exactS: 0, delayS: 0, plausible: true });
  });

  test('do not change when they are in place and all is measured again', () => {
    const first = delaySettings(channels, 1e-6);
    const again = channels.map(({ arrivalS }, i) => ({
      arrivalS: arrivalS + first[i].delayS,
      delayInPlaceS: first[i].delayS,
    }));
    delaySettings(again, 1e-6).forEach(({ delayS }, i) => {
      expect(delayS).toBeCloseTo(first[i].delayS, 12);
    });
  });

  test('are whole steps, at most half a step off', () => {
    const stepS = 1 / 48_000;
    for (let n = 0; n < 50; n++) {
      const [{ exactS, delayS }] = delaySettings([{ arrivalS: -n * 7.7e-6, delayInPlaceS: 0 }, channels[1]], stepS);
      expect(Math.abs(delayS / stepS - Math.round(delayS / stepS))).toBeLessThan(1e-9);
      expect(Math.abs(delayS - exactS)).toBeLessThanOrEqual(stepS / 2 + 1e-12);
    }
  });

  test('of more than 15 ms are no delays but a mistake in the plan', () => {
    const late = { arrivalS: 0.015, delayInPlaceS: 0 };
    expect(delaySettings([{ arrivalS: 0, delayInPlaceS: 0 }, late], 1e-5)[0].plausible).toBe(true);
    expect(delaySettings([{ arrivalS: -1e-6, delayInPlaceS: 0 }, late], 1e-5)[0].plausible).toBe(false);
  });

  test('of one channel are none', () => {
    expect(delaySettings([{ arrivalS: -0.2, delayInPlaceS: 0.004 }], 1e-5)[0].delayS).toBe(0);
  });

  test('refuse no channel, no step and numbers that are none', () => {
    expect(() => delaySettings([], 1e-5)).toThrow('delays need a channel');
    expect(() => delaySettings(channels, 0)).toThrow('stepS must be');
    expect(() => delaySettings([{ arrivalS: Number.NaN, delayInPlaceS: 0 }], 1e-5)).toThrow('arrivalS must be');
    expect(() => delaySettings([{ arrivalS: 0, delayInPlaceS: -1e-9 }], 1e-5)).toThrow('delayInPlaceS must be');
  });
});

test('an arrival after the left anchor counts from the right one by what lies between the two', () => {
  expect(arrivalAfterRightAnchor({ arrivalS: 0.0007, anchorSide: 'left' }, -0.0009)).toBeCloseTo(-0.0002, 12);
  expect(arrivalAfterRightAnchor({ arrivalS: 0.0007, anchorSide: 'right' }, -0.0009)).toBe(0.0007);
});

test('sound is 343.2 m/s fast at 20 degrees, 331.3 at 0', () => {
  expect(soundSpeedMPerS(20)).toBeCloseTo(343.21, 2);
  expect(soundSpeedMPerS(0)).toBe(331.3);
  expect(() => soundSpeedMPerS(-61)).toThrow('temperatureC must be -60..100, got -61');
});

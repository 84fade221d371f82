import { describe, expect, test } from 'vitest';
import {
  fullScaleFromDigital,
  fullScaleFromSensitivity,
  fullScaleFromTone,
  type ToneState,
  toneWaits,
  toneWatch,
  typedNumber,
} from './full-scale.ts';

describe('full scale as a sound pressure level', () => {
  test('a calibrator of 94 dB that reads -30 dBFS makes full scale 124 dB', () => {
    expect(fullScaleFromTone(94, -30)).toBe(124);
    expect(fullScaleFromTone(114, -10)).toBe(124);
  });

  test('a microphone that reads 1 dB too much at the tone is not believed that 1 dB', () => {
    expect(fullScaleFromTone(94, -29, 1)).toBe(124);
  });

  test('10 mV/Pa into an input of 1 V: one pascal is 40 dB under a full-scale sine', () => {
    // 93.98 dB SPL at -40 dB re a full-scale sine, which is -43.01 dB re a full-scale square.
    expect(fullScaleFromSensitivity(10, 1)).toBeCloseTo(93.979 + 43.01, 2);
  });

  test('a digital microphone of -26 dBFS at 94 dB', () => {
    expect(fullScaleFromDigital(-26)).toBeCloseTo(94 + 26 + 3.01, 2);
  });

  test('both ways agree on one microphone', () => {
    // 50.12 mV/Pa into 1 V is -26 dB re full-scale sine at one pascal, 0.02 dB under 94 dB.
    expect(fullScaleFromSensitivity(10 ** (-26 / 20) * 1000, 1)).toBeCloseTo(fullScaleFromDigital(-26) - 0.021, 2);
  });

  test.each([
    () => fullScaleFromTone(30, -30),
    () => fullScaleFromTone(94, 1),
    () => fullScaleFromSensitivity(0, 1),
    () => fullScaleFromDigital(3),
  ])('refuses what no microphone is', (call) => {
    expect(call).toThrow(RangeError);
  });
});

test.each([
  ['1,25', 1.25],
  ['\u221226', -26],
  [' 12.5 ', 12.5],
  ['.5', 0.5],
  ['', null],
  ['12 mV', null],
  ['1e3', null],
])('%j is read as %s', (text, value) => {
  expect(typedNumber(text)).toBe(value);
});

describe('the tone of a calibrator', () => {
  const fHz = [500, 630, 800, 1000, 1250, 1600, 2000];
  const bands = (tone: number, rest = -80) => fHz.map((f) => (f === 1000 ? tone : rest));

  const watched = (levels: number[], rest = -80): ToneState => {
    const watch = toneWatch(1000);
    let state = watch.feed(bands(levels[0], rest), fHz, 0);
    levels.forEach((level, n) => {
      state = watch.feed(bands(level, rest), fHz, n * 0.1);
    });
    return state;
  };

  test('is taken once it has stood still for five seconds', () => {
    const still = watched(Array.from({ length: 60 }, (_, n) => -30 + 0.02 * (n % 2)));
    expect(still.levelDbfs).toBeCloseTo(-29.99, 2);
    expect(toneWaits(still)).toBeNull();
  });

  test.each([
    ['hold still', Array.from({ length: 20 }, () => -30), -80],
    ['wanders', Array.from({ length: 60 }, (_, n) => -30 + (n % 2)), -80],
    ['does not stand out', Array.from({ length: 60 }, () => -30), -40],
    ['too hot', Array.from({ length: 60 }, () => -3), -80],
    ['no tone', Array.from({ length: 60 }, () => -120), -140],
  ])('waits while it: %s', (why, levels, rest) => {
    expect(toneWaits(watched(levels as number[], rest as number))).toContain(why);
  });

  test('forgets what it heard before the last five seconds', () => {
    const moved = watched([...Array.from({ length: 60 }, () => -50), ...Array.from({ length: 60 }, () => -30)]);
    expect(moved.levelDbfs).toBeCloseTo(-30, 6);
  });
});

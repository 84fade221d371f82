import { describe, expect, test } from 'vitest';
import { ambientNoise } from './ambient-noise.ts';
import { addEvent } from './noise-events.ts';
import { quantised } from './recorder.ts';
import { effectsResponse, withEffect } from './recorder-effects.ts';
import { edited } from './recording-edits.ts';

const RATE_HZ = 48_000;
const sine = (peak: number, seconds = 1, fHz = 1000): Float64Array =>
  Float64Array.from({ length: seconds * RATE_HZ }, (_, n) => peak * Math.sin((2 * Math.PI * fHz * n) / RATE_HZ));
const rms = (signal: Float64Array): number =>
  Math.sqrt(signal.reduce((total, value) => total + value * value, 0) / signal.length);
const db = (value: number): number => 20 * Math.log10(value);

describe('ambient noise', () => {
  test.each(['parked', 'fan', 'white'] as const)('%s has exactly the level asked for', (character) => {
    expect(db(rms(ambientNoise({ levelDb: -70, character, lines: [] }, 3, RATE_HZ, RATE_HZ)))).toBeCloseTo(-70, 6);
  });

  test('of a parked car falls with frequency to a floor of hiss', () => {
    const noise = ambientNoise({ levelDb: 0, character: 'parked', lines: [] }, 3, 4 * RATE_HZ, RATE_HZ);
    const bandDb = (lowHz: number, highHz: number): number => {
      let power = 0;
      for (let fHz = lowHz; fHz < highHz; fHz += (highHz - lowHz) / 60) {
        let re = 0;
        let im = 0;
        for (let n = 0; n < noise.length; n++) {
          re += noise[n] * Math.cos((2 * Math.PI * fHz * n) / RATE_HZ);
          im += noise[n] * Math.sin((2 * Math.PI * fHz * n) / RATE_HZ);
        }
        power += (re * re + im * im) / 60;
      }
      return 10 * Math.log10(power / noise.length);
    };
    const low = bandDb(40, 60);
    // Densities of a quiet recording: 30 dB or so less at 1 kHz than at 50 Hz, then level.
    expect(low - bandDb(900, 1100)).toBeGreaterThan(22);
    expect(Math.abs(bandDb(7000, 8000) - bandDb(14_000, 15_000))).toBeLessThan(2);
  });

  test('carries an engine line at its level', () => {
    const noise = ambientNoise(
      { levelDb: -80, character: 'white', lines: [{ fHz: 100, levelDb: 30 }] },
      3,
      RATE_HZ,
      RATE_HZ,
    );
    expect(db(rms(noise))).toBeCloseTo(-50, 1);
  });
});

test('a lorry is loudest when it passes', () => {
  const target = new Float64Array(8 * RATE_HZ);
  addEvent(target, { kind: 'lorry', atS: 4, widthS: 2, levelDb: -40 }, RATE_HZ, 1);
  const around = (timeS: number) => db(rms(target.subarray((timeS - 0.5) * RATE_HZ, (timeS + 0.5) * RATE_HZ)));
  expect(around(4)).toBeGreaterThan(-43);
  expect(around(4) - around(1)).toBeGreaterThan(15);
});

describe('the converter', () => {
  test('rounds 24 bit to the nearest step and clips at full scale', () => {
    expect([...quantised(Float64Array.of(0.3, 1.7, -3), 24, 1)]).toEqual([
      Math.round(0.3 * 2 ** 23) / 2 ** 23,
      1 - 2 ** -23,
      -1,
    ]);
  });

  test('dithers 16 bit: error power a quarter of a step squared, a tone under one step survives', () => {
    const step = 2 ** -15;
    const tone = sine(0.4 * step);
    const error = quantised(tone, 16, 5).map((value, n) => value - tone[n]);
    // Triangular dither of two uniforms (1/6) plus rounding (1/12): a quarter of a step squared.
    expect((rms(error) / step) ** 2).toBeCloseTo(0.25, 1);
    const heard = quantised(tone, 16, 5).reduce(
      (total, value, n) => total + value * Math.sin((2 * Math.PI * n) / 48),
      0,
    );
    expect((2 * heard) / tone.length / step).toBeCloseTo(0.4, 1);
  });
});

describe('recorder effects', () => {
  test('hard clipping is flat at its level, soft bends and never passes it', () => {
    const hard = withEffect(sine(1), { kind: 'clip', shape: 'hard', atDbfs: -6.0206 }, RATE_HZ);
    expect(Math.max(...hard)).toBeCloseTo(0.5, 5);
    expect(hard.filter((value) => value > 0.4999).length / hard.length).toBeCloseTo(1 / 3, 1);
    const soft = withEffect(sine(1), { kind: 'clip', shape: 'soft', atDbfs: -6.0206 }, RATE_HZ);
    expect(Math.max(...soft)).toBeLessThan(0.5);
    expect(withEffect(sine(0.05), { kind: 'clip', shape: 'soft', atDbfs: -6 }, RATE_HZ)[12]).toBeCloseTo(0.05, 6);
  });

  test('automatic gain brings loud and soft nearer, down at once and up slowly', () => {
    const signal = Float64Array.from([...sine(0.01, 2), ...sine(0.5, 1), ...sine(0.01, 2)]);
    const out = withEffect(signal, { kind: 'agc', targetDb: -20, mostGainDb: 20, attackS: 0.02, releaseS: 1 }, RATE_HZ);
    const level = (fromS: number, toS: number) => db(rms(out.subarray(fromS * RATE_HZ, toS * RATE_HZ)));
    expect(level(2.5, 3)).toBeCloseTo(-20, 0);
    expect(level(1.8, 2) - level(3.05, 3.25)).toBeGreaterThan(10);
    expect(level(4.8, 5)).toBeGreaterThan(level(3.05, 3.25));
  });

  test('a gate makes quiet stretches exact zeros and leaves loud ones alone', () => {
    const signal = Float64Array.from([...sine(0.001), ...sine(0.5), ...sine(0.001)]);
    const gate = {
      kind: 'gate',
      thresholdDb: -40,
      depthDb: Number.POSITIVE_INFINITY,
      holdS: 0.1,
      releaseS: 0.01,
    } as const;
    const out = withEffect(signal, gate, RATE_HZ);
    expect(out.subarray(0, 40_000).every((value) => value === 0)).toBe(true);
    expect(rms(out.subarray(50_000, 90_000))).toBeCloseTo(0.5 / Math.SQRT2, 3);
    expect(out.subarray(120_000).every((value) => value === 0)).toBe(true);
  });

  test('suppression fades what stands still', () => {
    const out = withEffect(sine(0.1, 4), { kind: 'suppression', depthDb: 20, settleS: 0.5 }, RATE_HZ);
    const early = db(rms(out.subarray(2000, 4000)));
    const late = db(rms(out.subarray(180_000, 190_000)));
    expect(early - late).toBeGreaterThan(10);
  });

  test('a narrow band is 3 dB down at its edges, and its formula says so too', () => {
    const effect = { kind: 'band-limit', lowHz: 300, highHz: 3400, order: 8 } as const;
    for (const fHz of [300, 3400]) {
      const out = withEffect(sine(1, 1, fHz), effect, RATE_HZ);
      expect(db(rms(out.subarray(24_000)) * Math.SQRT2)).toBeCloseTo(-3.01, 1);
      const { re, im } = effectsResponse([effect], fHz, RATE_HZ);
      expect(db(Math.hypot(re, im))).toBeCloseTo(-3.01, 1);
    }
  });
});

describe('edits of a recording', () => {
  const ramp = Float64Array.from({ length: 10 }, (_, n) => n + 1);
  test('lose, double, empty and cut what they say', () => {
    expect([...edited(ramp, { kind: 'lose', atS: 3, samples: 2 }, 1, 1)]).toEqual([1, 2, 3, 6, 7, 8, 9, 10]);
    expect([...edited(ramp, { kind: 'double', atS: 3, samples: 2 }, 1, 1)]).toEqual([
      1, 2, 3, 4, 5, 4, 5, 6, 7, 8, 9, 10,
    ]);
    expect([...edited(ramp, { kind: 'zero-fill', atS: 3, durationS: 2 }, 1, 1)]).toEqual([
      1, 2, 3, 0, 0, 6, 7, 8, 9, 10,
    ]);
    expect([...edited(ramp, { kind: 'cut-start', durationS: 8 }, 1, 1)]).toEqual([9, 10]);
    expect([...edited(ramp, { kind: 'cut-end', atS: 2 }, 1, 1)]).toEqual([1, 2]);
    expect([...ramp]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  });

  test('clicks change as many samples as asked, by their level', () => {
    const out = edited(new Float64Array(1000), { kind: 'clicks', count: 5, level: 0.1, fromS: 0, toS: 900 }, 1, 4);
    expect(out.filter((value) => Math.abs(value) > 0.09).length).toBe(5);
  });

  test('beyond the end nothing happens', () => {
    expect(edited(ramp, { kind: 'lose', atS: 99, samples: 5 }, 1, 1)).toEqual(ramp);
    expect(edited(ramp, { kind: 'double', atS: 99, samples: 5 }, 1, 1)).toEqual(ramp);
  });
});

import { describe, expect, test } from 'vitest';
import { levelMeter } from './level-meter.ts';

const rateHz = 48_000;
const sine = (amplitude: number, frames: number, fHz = 1000) =>
  Float32Array.from({ length: frames }, (_, n) => amplitude * Math.sin((2 * Math.PI * fHz * n) / rateHz));

describe('the level meter', () => {
  test('reads a full-scale sine as -3.01 dB re a full-scale square', () => {
    const meter = levelMeter(rateHz);
    let now = meter.feed([sine(0.999, 4800)]);
    for (let i = 0; i < 10; i++) now = meter.feed([sine(0.999, 4800)]);
    expect(now.rmsDbfs).toBeCloseTo(-3.02, 1);
    expect(now.peakDbfs).toBeCloseTo(-0.01, 1);
    expect(now.clippedSamples).toBe(0);
  });

  test('counts samples that stand at full scale, but not a lone one', () => {
    const meter = levelMeter(rateHz);
    const block = new Float32Array(100);
    block[10] = 1;
    block.fill(1, 20, 25);
    block.fill(-1, 40, 42);
    expect(meter.feed([block]).clippedSamples).toBe(7);
  });

  test('a run of full scale across two blocks counts as one', () => {
    const meter = levelMeter(rateHz);
    const end = new Float32Array(10);
    end[9] = 1;
    const start = new Float32Array(10);
    start[0] = 1;
    meter.feed([end]);
    expect(meter.feed([start]).clippedSamples).toBe(2);
  });

  test('keeps the quietest stretch as the noise, and a muted device is not quiet', () => {
    const meter = levelMeter(rateHz);
    meter.feed([new Float32Array(rateHz)]);
    meter.feed([sine(0.001, rateHz)]);
    const now = meter.feed([sine(0.5, rateHz)]);
    expect(now.noiseDbfs).toBeCloseTo(-63, 0);
    expect(now.highestDbfs).toBeCloseTo(-6, 1);
  });

  test('says which of two inputs hears it', () => {
    expect(levelMeter(rateHz).feed([sine(0.001, 480), sine(0.3, 480)]).input).toBe(1);
  });
});

// Laws that hold over the whole range of the level calculations, and their edges.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Result } from '../../base/result.ts';
import { gainsCalculations } from './calculations.ts';
import { cleanCeiling } from './clean-ceiling.ts';
import { clippedSine } from './clipped-sine.ts';
import { type GainChain, gainStructure } from './gain-structure.ts';
import { overdriveForThd } from './overdrive-for-thd.ts';

function answerOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.issues[0].message);
  return result.value;
}

const code = (result: Result<unknown>) => (result.ok ? 'none' : result.issues[0].code);

function run(name: string, inputs: object) {
  const found = gainsCalculations.find((one) => one.name === name);
  if (found === undefined) throw new Error(name);
  return found.run(inputs);
}

/** A clipped sine summed sample by sample: a slow twin of the closed form. */
function sampled(overdriveDb: number) {
  const count = 1 << 20;
  const peak = 10 ** (overdriveDb / 20);
  let [square, sine, average] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const x = (2 * Math.PI * (i + 0.5)) / count;
    const y = Math.max(-1, Math.min(1, peak * Math.sin(x)));
    square += y * y;
    sine += y * Math.sin(x);
    average += Math.abs(y);
  }
  const fundamental = (2 * sine) / count;
  const harmonics = square / count - fundamental ** 2 / 2;
  return {
    thdPct: 100 * Math.sqrt((2 * harmonics) / fundamental ** 2),
    rms: Math.sqrt(square / count),
    average: average / count,
  };
}

describe('a clipped sine', () => {
  test.each([0.05, 0.5, 0.99, 1, 1.01, 4, 12, 40])('of %d dB is what its samples add up to', (overdriveDb) => {
    const found = clippedSine({ overdriveDb });
    const want = sampled(overdriveDb);
    expect(Math.abs(found.thdPct / want.thdPct - 1)).toBeLessThan(1e-5);
    expect(found.rms).toBeCloseTo(want.rms, 8);
    expect(found.averageMeterRms).toBeCloseTo((want.average * Math.PI) / Math.sqrt(8), 8);
  });

  test('is a sine without overdrive and a square with much', () => {
    expect(clippedSine({ overdriveDb: 0 })).toMatchObject({ thdPct: 0, rms: expect.closeTo(Math.SQRT1_2, 12) });
    expect(clippedSine({ overdriveDb: 200 }).thdPct).toBeCloseTo(100 * Math.sqrt(Math.PI ** 2 / 8 - 1), 6);
    expect(code(run('clippedSine', { overdriveDb: -0.1 }))).toBe('out-of-range');
  });

  test('of light clipping grows as the 5/4th power of the overdrive, down to where nothing is heard', () => {
    const ratio = clippedSine({ overdriveDb: 2e-6 }).thdPct / clippedSine({ overdriveDb: 1e-6 }).thdPct;
    expect(ratio).toBeCloseTo(2 ** 1.25, 2);
  });

  test('and its overdrive are each the inverse of the other', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 40, noNaN: true }), (thdPct) => {
        const { overdriveDb } = answerOf(overdriveForThd({ thdPct }));
        expect(Math.abs(clippedSine({ overdriveDb }).thdPct / thdPct - 1)).toBeLessThan(1e-9);
      }),
    );
    expect(answerOf(overdriveForThd({ thdPct: 0 })).overdriveDb).toBeCloseTo(0, 9);
    expect(code(overdriveForThd({ thdPct: 40.01 }))).toBe('no-solution');
  });
});

describe('a gain plan', () => {
  const volts = fc.double({ min: 0.05, max: 20, noNaN: true });
  const chains: fc.Arbitrary<GainChain> = fc
    .record({
      sourceCleanV: volts,
      procInMaxV: volts,
      procOutMaxV: volts,
      headroomDb: fc.double({ min: 0, max: 12, noNaN: true }),
      sens: fc.tuple(volts, volts),
      ampRatedW: fc.double({ min: 5, max: 3000, noNaN: true }),
      loadOhm: fc.double({ min: 0.5, max: 16, noNaN: true }),
      driverLimitV: fc.option(volts, { nil: undefined }),
      makeUpDigital: fc.boolean(),
    })
    .map(({ sens, ...chain }) => ({
      ...chain,
      procInRangesV: [chain.procInMaxV],
      ampSensMinV: Math.min(...sens),
      ampSensMaxV: Math.max(...sens),
    }));

  test('reaches its target or says how short it stays, never more, with every device in its range', () => {
    fc.assert(
      fc.property(chains, (chain) => {
        const plan = answerOf(gainStructure(chain));
        expect(plan.ampOutV * 10 ** (plan.shortDb / 20)).toBeCloseTo(plan.targetV, 6);
        expect(plan.procOutV * 10 ** (plan.ampGainDb / 20)).toBeCloseTo(plan.ampOutV, 6);
        expect(plan.ampSensV).toBeGreaterThanOrEqual(chain.ampSensMinV);
        expect(plan.ampSensV).toBeLessThanOrEqual(chain.ampSensMaxV);
        expect(plan.procTrimDb).toBeLessThanOrEqual(0);
        expect(plan.shortDb).toBeGreaterThanOrEqual(0);
        expect(plan.procTrimDb === 0 || plan.shortDb === 0).toBe(true);
        expect(plan.procOutV).toBeLessThanOrEqual(chain.procOutMaxV * (1 + 1e-12));
        expect(plan.targetV).toBeLessThanOrEqual(plan.ampClipV);
      }),
    );
  });

  const chain = {
    sourceCleanV: 1.5,
    procInMaxV: 4,
    procOutMaxV: 4,
    ampSensMinV: 0.3,
    ampSensMaxV: 6,
    ampRatedW: 75,
    loadOhm: 4,
  };

  test('takes the smallest input range that takes the source', () => {
    const plan = answerOf(run('gainStructure', { ...chain, procInRangesV: [4, 2, 1] }));
    expect(plan).toMatchObject({
      inputRangeV: 2,
      inputBelowFullDb: expect.closeTo(20 * Math.log10(0.75), 12),
      procOutV: 4,
    });
  });

  test('leaves the shortfall in the output where the processor does not make it up', () => {
    expect(answerOf(run('gainStructure', { ...chain, makeUpDigital: false })).procOutV).toBeCloseTo(1.5, 12);
  });

  test('refuses a sensitivity range that is upside down', () => {
    expect(code(run('gainStructure', { ...chain, ampSensMinV: 7 }))).toBe('contradiction');
  });
});

describe('a clean ceiling', () => {
  const step = (volume: number, dbv: number, thdPct: number) => ({ volume, dbv, thdPct });

  test('is reached between the last clean step and the first that is not', () => {
    const found = answerOf(cleanCeiling([step(1, 0, 0.1), step(2, 6, 10)], 1));
    expect(found).toMatchObject({ ceilingVolume: 1, reached: true, lostStepDb: 6 });
    expect(found.onsetVolts).toBeCloseTo(10 ** (3 / 20), 12);
  });

  test('has an onset even where no distortion was seen', () => {
    const found = answerOf(cleanCeiling([step(1, 0, 0), step(2, 6, 10)], 1));
    expect(found.onsetVolts).toBeGreaterThan(1);
    expect(found.onsetVolts).toBeLessThan(10 ** 0.3);
  });

  test('counts a step exactly at the limit as clean', () => {
    expect(answerOf(cleanCeiling([step(1, 0, 0.1), step(2, 6, 1), step(3, 8, 2)], 1)).ceilingVolume).toBe(2);
  });

  test('refuses volumes that do not rise', () => {
    expect(code(cleanCeiling([step(2, 0, 0.1), step(2, 6, 1)], 1))).toBe('contradiction');
  });
});

test.each([
  ['toneVolts', { fullVolts: 10, toneDbfs: 0.1 }, 'out-of-range'],
  ['toneVolts', { fullVolts: 10, toneDbfs: -1, overlapDb: -1 }, 'out-of-range'],
  ['toneVolts', { fullVolts: 10, toneDbfs: -4.9, overlapDb: 5 }, 'contradiction'],
  ['toneVolts', { fullVolts: 10, toneDbfs: -5, overlapDb: 5, filters: [] }, 'none'],
  [
    'toneVolts',
    { fullVolts: 10, toneDbfs: -5, filters: [{ type: 'hp', family: 'butterworth', order: 1, hz: 9 }] },
    'missing',
  ],
  [
    'toneVolts',
    { fullVolts: 10, toneDbfs: -5, freqHz: 9, filters: [{ type: 'hp', family: 'linkwitz-riley', order: 3, hz: 9 }] },
    'unsupported',
  ],
  ['targetVolts', { watt: 0, ohm: 4 }, 'out-of-range'],
  ['hiss', { procNoiseUv: 0, ampInputNoiseUv: 0, ampGainDb: 20, spl283Db: 90, distanceM: 1 }, 'out-of-range'],
  ['testFrequency', { lowHz: 80, highHz: 80, meterHz: 1000 }, 'contradiction'],
  ['chainSnr', { sourceV: 1, stages: [{ gainDb: 6, maxV: 2 }] }, 'none'],
  ['chainSnr', { sourceV: 1, stages: [{ gainDb: 6.1, maxV: 2 }] }, 'contradiction'],
  ['chainSnr', { sourceV: 1, stages: [] }, 'missing'],
  ['gainStructure', { sourceCleanV: true }, 'missing'],
])('%s of %j gives %s', (name, inputs, expected) => {
  expect(code(run(name, inputs))).toBe(expected);
});

test('a meter is usable up to 0.65 of its corner', () => {
  const usable = (freqHz: number) => answerOf(run('meterTrue', { readVolts: 1, freqHz, meterHz: 1000 })).usable;
  expect([650, 651].map(usable)).toEqual([true, false]);
});

test('a frequency that is missing is said before volts that are no number', () => {
  const filters = [{ type: 'hp', family: 'butterworth', order: 1, hz: 9 }];
  expect(code(run('toneVolts', { fullVolts: 'x', toneDbfs: 1, filters }))).toBe('missing');
});

// Laws of noise exposure, and their edges.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Result } from '../../base/result.ts';
import { allowedTime } from './allowed-time.ts';
import { combineLevels } from './band-levels.ts';
import { exposureCalculations } from './calculations.ts';
import { dose, remaining } from './dose.ts';

function answerOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.issues[0].message);
  return result.value;
}

const code = (result: Result<unknown>) => (result.ok ? 'none' : result.issues[0].code);

function run(name: string, inputs: object) {
  const found = exposureCalculations.find((one) => one.name === name);
  if (found === undefined) throw new Error(name);
  return found.run(inputs);
}

const level = fc.double({ min: 60, max: 130, noNaN: true });

test('allowed time halves with each exchange, whatever rule is chosen', () => {
  fc.assert(
    fc.property(level, fc.double({ min: 1, max: 6, noNaN: true }), (levelDba, exchangeDb) => {
      const rule = { limitDba: 80, exchangeDb };
      const ratio = allowedTime(levelDba, rule) / allowedTime(levelDba + exchangeDb, rule);
      expect(ratio).toBeCloseTo(2, 9);
      expect(allowedTime(80, rule)).toBe(480);
    }),
  );
});

test('what is left at a level, once used, makes the dose whole', () => {
  fc.assert(
    fc.property(level, fc.double({ min: 0, max: 99, noNaN: true }), (levelDba, dosePct) => {
      const used = (dosePct / 100) * allowedTime(85);
      const minutes = remaining(dosePct, levelDba);
      fc.pre(used + minutes <= 1440);
      const found = answerOf(
        dose([
          { levelDba: 85, minutes: used },
          { levelDba, minutes },
        ]),
      );
      expect(found.dosePct).toBeCloseTo(100, 6);
      expect(found.twa8hDba).toBeCloseTo(85, 6);
    }),
  );
});

describe('the state of a dose', () => {
  test.each([
    [239.9, 'ok'],
    [240, 'warn'],
    [479.9, 'warn'],
    [480, 'stop'],
  ])('after %d minutes at 85 dBA is %s', (minutes, state) => {
    expect(answerOf(run('dose', { segments: [{ levelDba: 85, minutes }] })).state).toBe(state);
  });

  test('is not put off by the last binary digit', () => {
    const segments = Array.from({ length: 10 }, () => ({ levelDba: 85, minutes: 48 }));
    expect(answerOf(dose(segments)).state).toBe('stop');
  });

  test('follows the rule that was chosen', () => {
    expect(answerOf(run('dose', { segments: [{ levelDba: 80, minutes: 480 }], limitDba: 80 }))).toMatchObject({
      dosePct: 100,
      twa8hDba: 80,
    });
  });
});

test('levels add as powers, in any order, at any loudness', () => {
  fc.assert(
    fc.property(fc.array(level, { minLength: 1, maxLength: 20 }), (levels) => {
      const sum = combineLevels(levels);
      expect(sum).toBeCloseTo(10 * Math.log10(levels.reduce((a, l) => a + 10 ** (l / 10), 0)), 9);
      expect(combineLevels([...levels].reverse())).toBeCloseTo(sum, 9);
    }),
  );
});

test('a protector never adds level, and its label counts less for A-weighted levels', () => {
  const worn = (inputs: object) => answerOf(run('protectedLevel', { nrrDb: 20, levelDb: 100, ...inputs })).reductionDb;
  expect(worn({ type: 'muff', weighting: 'C' })).toBe(15);
  expect(worn({ type: 'muff' })).toBe(8);
  expect(worn({ type: 'formable-plug' })).toBe(3);
  expect(worn({ type: 'other-plug' })).toBe(0);
  expect(worn({ type: 'other-plug', weighting: 'C' })).toBeCloseTo(6, 12);
});

test.each([
  ['allowedTime', { levelDba: 194.1 }, 'out-of-range'],
  ['allowedTime', { levelDba: 194 }, 'none'],
  ['allowedTime', { levelDba: 90, exchangeDb: 0 }, 'out-of-range'],
  ['dose', { segments: [] }, 'missing'],
  ['dose', { segments: [{ levelDba: 80, minutes: 1440 }] }, 'none'],
  ['dose', { segments: [{ levelDba: 80, minutes: 1441 }] }, 'out-of-range'],
  [
    'dose',
    {
      segments: [
        { levelDba: 80, minutes: 800 },
        { levelDba: 80, minutes: 641 },
      ],
    },
    'out-of-range',
  ],
  [
    'leq',
    {
      segments: [
        { levelDba: 80, minutes: 800 },
        { levelDba: 80, minutes: 641 },
      ],
    },
    'out-of-range',
  ],
  ['leq', { segments: [{ levelDba: 80, minutes: 0 }] }, 'no-solution'],
  ['remaining', { dosePct: -1, levelDba: 90 }, 'out-of-range'],
  ['bandsToDba', { freqsHz: [63, 125], levelsDb: [90] }, 'contradiction'],
  ['aWeight', { freqHz: 0 }, 'out-of-range'],
  ['combineLevels', { levelsDb: [90, '90'] }, 'not-a-number'],
  ['protectedLevel', { type: 'muff', nrrDb: -1, levelDb: 100 }, 'out-of-range'],
  ['protectedLevel', { type: 'muff', nrrDb: 20, levelDb: 100, weighting: 'Z' }, 'unsupported'],
  ['peakCheck', { peakDb: 'loud' }, 'not-a-number'],
])('%s of %j gives %s', (name, inputs, expected) => {
  expect(code(run(name, inputs))).toBe(expected);
});

test('a peak warns from 135 dB and stops from 140', () => {
  const state = (peakDb: number) => answerOf(run('peakCheck', { peakDb })).state;
  expect([134.9, 135, 139.9, 140].map(state)).toEqual(['ok', 'warn', 'warn', 'stop']);
});

// Onsets made by the practice bay's filters, run in time; the reader's own are evaluated as analog formulas.
import { describe, expect, test } from 'vitest';
import { addAt } from '../../practice/convolution.ts';
import { filtered, highPass2, lowPass2, sectionFromAnalogue } from '../../practice/sections.ts';
import { earlySound } from './early-sound.ts';

const RATE_HZ = 48_000;
const SIZE = 16_384;
const BAND = { low: 300, high: 3000, openHigh: false };
const STIMULUS_HZ = { low: 100, high: 12_000 };
const SEARCH_S = { from: -0.012, to: 0.012 };
const ARRIVAL = 150;

/** A band-passed pulse at sample 150 and later copies of it, on a circle. */
function heard(sign: number, copies: { lagS: number; gain: number }[], sections: ReturnType<typeof lowPass2>[] = []) {
  const pulse = new Float64Array(SIZE);
  pulse[ARRIVAL] = sign;
  const q = Math.SQRT1_2;
  const steep = [
    highPass2(300, q, RATE_HZ),
    highPass2(300, q, RATE_HZ),
    lowPass2(3000, q, RATE_HZ),
    lowPass2(3000, q, RATE_HZ),
  ];
  const direct = filtered([...steep, ...sections], pulse);
  const samples = Float64Array.from(direct);
  for (const { lagS, gain } of copies) addAt(samples, direct.slice(0, SIZE / 2), Math.round(lagS * RATE_HZ), gain);
  return { rateHz: RATE_HZ, size: SIZE, samples };
}

const read = (impulse: ReturnType<typeof heard>, searchS = SEARCH_S) => {
  const found = earlySound(impulse, STIMULUS_HZ, BAND, searchS);
  if (!found) throw new Error('nothing to compare');
  return found;
};

describe('the first sound of a driver', () => {
  test.each([
    ['alone', []],
    ['before a louder reflection', [{ lagS: 0.0006, gain: 1.15 }]],
    ['before a louder one that is turned over', [{ lagS: 0.0009, gain: -1.15 }]],
    [
      'in a cabin',
      [
        { lagS: 0.0005, gain: 0.5 },
        { lagS: 0.0013, gain: -0.4 },
        { lagS: 0.003, gain: 0.5 },
      ],
    ],
  ])('has its sign and its time, %s', (_, copies) => {
    for (const sign of [1, -1] as const) {
      const found = read(heard(sign, copies));
      expect(found.sign).toBe(sign);
      expect(Math.abs(found.arrivalS - ARRIVAL / RATE_HZ)).toBeLessThan(0.0001);
      expect(found.rivalry).toBeLessThan(0.6);
      expect(found.atEdge).toBe(false);
    }
  });

  test('leaves nearly nothing unexplained where only the filters speak', () => {
    const found = read(heard(1, []));
    expect(found.explained).toBeGreaterThan(0.995);
    expect(found.allPassRivalry).toBeGreaterThan(2);
  });

  test('turned round by a hidden all-pass is as well explained by the other sign and one', () => {
    const allPass = sectionFromAnalogue([1, -1 / 0.7, 1], [1, 1 / 0.7, 1], 900, RATE_HZ);
    expect(read(heard(1, [], [allPass])).allPassRivalry).toBeLessThan(0.8);
  });

  test('is at the edge of a window that ends before it', () => {
    expect(read(heard(1, []), { from: -0.012, to: 0.003 }).atEdge).toBe(true);
  });

  test('cannot be told from silence or in an empty window', () => {
    expect(earlySound(heard(0, []), STIMULUS_HZ, BAND, SEARCH_S)).toBeNull();
    expect(earlySound(heard(1, []), STIMULUS_HZ, BAND, { from: 0.01, to: 0.01 })).toBeNull();
  });
});

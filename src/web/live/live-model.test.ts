import { describe, expect, test } from 'vitest';
import { agreedLevels, aWeightedDb, bandsOut, bandsText, liveSentence, truedLevels } from './live-model.ts';

const fHz = [50, 100, 200, 400, 800, 1000, 1600, 3200, 6400, 12_800];
const style = { decimal: '.' } as const;
const flat = (level: number) => fHz.map(() => level);

describe('the agreed sound', () => {
  test('lies as high as the middle bands make it, whatever the bass does', () => {
    const averageDb = fHz.map((f) => (f <= 100 ? 90 : 70));
    expect(Array.from(agreedLevels(averageDb, fHz, 'level') ?? [])).toEqual(flat(70));
    expect(bandsOut(averageDb, fHz, flat(70))).toEqual([
      { fHz: 50, offDb: 20 },
      { fHz: 100, offDb: 20 },
    ]);
  });

  test('falls one decibel an octave where that was agreed', () => {
    const averageDb = fHz.map((f) => 70 - Math.log2(f / 1000));
    const agreed = agreedLevels(averageDb, fHz, 'falling');
    expect(agreed?.[fHz.indexOf(800)]).toBeCloseTo(70 - Math.log2(0.8), 9);
    expect(agreed && bandsOut(averageDb, fHz, agreed)).toEqual([]);
  });

  test('is none without an agreement', () => {
    expect(agreedLevels(flat(70), fHz, 'none')).toBeNull();
  });
});

describe('the sentence above the bands', () => {
  const bands = { averageDb: flat(70), spreadDb: flat(1.2), fHz, seconds: 20 };

  test('waits until the average stands', () => {
    expect(liveSentence({ ...bands, seconds: 1 }, null, style)).toContain('begins to stand');
  });

  test('names what leaves the agreed sound, the furthest first', () => {
    const averageDb = flat(70);
    averageDb[0] = 75;
    averageDb[7] = 64;
    expect(liveSentence({ ...bands, averageDb }, flat(70), style)).toBe(
      '2 bands leave the agreed sound: 3.2 kHz lies 6 dB under it, 50 Hz stands 5 dB over it. The rest is inside.',
    );
    expect(liveSentence(bands, flat(70), style)).toBe('Every band lies inside the agreed sound.');
  });

  test('without an agreement tells how far bands move along the path', () => {
    expect(liveSentence(bands, null, style)).toContain('no band moves more than 1.2 dB');
    const spreadDb = flat(1);
    spreadDb[4] = 4.5;
    expect(liveSentence({ ...bands, spreadDb }, null, style)).toBe('800 Hz moves most along this path, by 4.5 dB.');
  });
});

test('the bands in words name the highest and the lowest, with the levels they were given', () => {
  const averageDb = fHz.map((f) => -20 - Math.abs(Math.log2(f / 400)));
  const at = (f: number) => averageDb[fHz.indexOf(f)].toFixed(1).replace('-', '\u2212');
  expect(bandsText(averageDb, fHz, 'dBFS', style)).toBe(
    `On average 400 Hz at ${at(400)} dBFS is the highest band, 12.8 kHz at ${at(12_800)} dBFS the lowest.`,
  );
  expect(bandsText([], [], 'dBFS', style)).toBe('');
});

test('a true microphone: its deviation out, full scale as sound pressure', () => {
  const microphone = { fullScaleSplDb: 120, correction: { fHz: [20, 20_000], deviationDb: [2, 2] } };
  expect(Array.from(truedLevels([-40], [1000], microphone))).toEqual([78]);
  expect(Array.from(truedLevels([-40], [1000], null))).toEqual([-40]);
});

test('the A-weighted level of a 1 kHz band is that band, of a 100 Hz band 19.1 dB less', () => {
  // IEC 61672-1:2013, table 3: A at 1 kHz 0.0 dB, at 100 Hz -19.1 dB.
  expect(aWeightedDb([80], [1000])).toBeCloseTo(80, 1);
  expect(aWeightedDb([80], [100])).toBeCloseTo(60.9, 1);
  expect(aWeightedDb([80, 80], [1000, 1000])).toBeCloseTo(83, 1);
});

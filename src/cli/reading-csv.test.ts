import { describe, expect, test } from 'vitest';
import type { Reading } from '../measurement/reading.ts';
import { madeUpReading } from './made-up-reading.ts';
import { readingCsv } from './reading-csv.ts';

const small: Reading = {
  ...madeUpReading,
  response: {
    fHz: [100, 200, 400],
    levelDb: [-20.123456789, null, -22],
    phaseDeg: [10, null, -170.5],
    valid: [true, false, true],
    levelSigmaDb: [0.1, null, 0.2],
  },
  distortion: {
    fHz: [100.00000001, 300],
    thdPct: [1.5, null],
    h2Pct: [1, null],
    h3Pct: [0.5, null],
    h4Pct: [0.01, null],
    h5Pct: [0.001, null],
    floorPct: [0.02, null],
    valid: [true, false],
  },
};
const rows = (reading: Reading) => readingCsv(reading).split('\n');

describe('readingCsv', () => {
  test('has one line a frequency, null as an empty cell, units in the names', () => {
    expect(rows(small)).toEqual([
      'fHz,levelDb,phaseDeg,valid,levelSigmaDb,thdPct,h2Pct,h3Pct,h4Pct,h5Pct,floorPct,distortionValid',
      '100,-20.12346,10,true,0.1,1.5,1,0.5,0.01,0.001,0.02,true',
      '200,,,false,,,,,,,,',
      '300,,,,,,,,,,,false',
      '400,-22,-170.5,true,0.2,,,,,,,',
      '',
    ]);
  });

  test('adds a level column for each of several stimuli', () => {
    const stimulus = { kind: 'sweep', side: 'left', levelDbfs: -12, startS: 2 } as const;
    const response = { ...small.response, fHz: [200], levelDb: [-31] } as NonNullable<Reading['response']>;
    const lines = rows({
      ...small,
      stimuli: [
        { ...stimulus, response },
        { ...stimulus, side: 'right' },
      ],
    });
    expect(lines[0].endsWith('distortionValid,levelDb 1 left -12 dBFS,levelDb 2 right -12 dBFS')).toBe(true);
    expect(lines[2]).toBe('200,,,false,,,,,,,,,-31,');
  });

  test('is the header alone where there is no response', () => {
    const { response, distortion, ...rest } = small;
    expect(rows(rest).length).toBe(2);
  });
});

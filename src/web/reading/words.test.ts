import { describe, expect, test } from 'vitest';
import type { Reading } from '../../measurement/reading.ts';
import {
  arrivalText,
  bandEdges,
  lowerFirst,
  medianSnrDb,
  polarityText,
  readingSentence,
  readingSeverity,
} from './words.ts';

const style = { decimal: '.' } as const;
const quality = {
  usable: true,
  verdict: 'A sound recording.',
  peakDbfs: -6,
  input: 1,
  inputs: 1,
  rateHz: 48_000,
  bits: 24,
  durationS: 9,
  problems: [],
};
const reading: Reading = { schema: 'kickpanel.read/1', reference: 'full-scale', quality, withheld: [] };
const problem = { code: 'low-snr' as const, message: 'Too noisy.', mend: 'Switch the fan off.' };

describe('a reading in words', () => {
  test('a take that is not usable says so first, and nothing about the car', () => {
    const unusable = { ...reading, quality: { ...quality, usable: false, verdict: 'Not usable: it is silent.' } };
    expect(readingSeverity(unusable)).toBe('stop');
    expect(readingSentence(unusable, style)).toBe('Not usable: it is silent.');
  });

  test('limits and notes are told apart', () => {
    const withProblem = (severity: 'limit' | 'note') => ({
      ...reading,
      quality: { ...quality, problems: [{ ...problem, severity }] },
    });
    expect([
      readingSeverity(withProblem('limit')),
      readingSeverity(withProblem('note')),
      readingSeverity(reading),
    ]).toEqual(['fix', 'note', 'ok']);
  });

  test('a pair says which side is late, a polarity which way it moves', () => {
    expect(readingSentence({ ...reading, leftMinusRightS: 0.00123 }, style)).toBe(
      'A clean take. The left driver sounds 1.23 ms after the right one.',
    );
    expect(readingSentence({ ...reading, polarity: { sign: -1, confidence: 1, reason: '' } }, style)).toBe(
      'A clean take. The driver pulls when it should push.',
    );
    expect(
      readingSentence(
        { ...reading, polarity: { sign: 0, confidence: 0, reason: 'The first move is buried in noise.' } },
        style,
      ),
    ).toBe('Not sure whether it pushes or pulls, because the first move is buried in noise.');
  });

  test('facts carry unit, sign and uncertainty', () => {
    expect(arrivalText(-0.00114, 0.00003, style)).toBe('\u22121.14 \u00b1 0.03 ms');
    expect(polarityText({ sign: 1, confidence: 0.83, reason: '' })).toBe('pushes, 83 % sure');
    expect(
      bandEdges({ lowHz: 84.2, lowSlopeDbPerOctave: 24.6, highHz: null, highSlopeDbPerOctave: null }, style),
    ).toEqual({
      low: '84 Hz, 25 dB/oct',
      high: 'above what was played',
    });
    expect(lowerFirst('R2 is silent.')).toBe('R2 is silent');
  });

  test('the median over the noise leaves out what is not known', () => {
    expect(
      medianSnrDb({ ...reading, quality: { ...quality, snr: { fHz: [1, 2, 3, 4], db: [30, null, 10, 20] } } }),
    ).toBe(20);
    expect(medianSnrDb(reading)).toBeNull();
  });
});

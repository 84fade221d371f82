// The words of the gains screen: what a typed value comes to.
import { expect, test } from 'vitest';
import { gainsSentence, typedGain } from './gains-words.ts';

const point = { decimal: '.' } as const;
// Half a decibel to either side of 10 V.
const reading = { targetV: 10, unloadedV: 9.7, lowV: 9.44, highV: 10.59 };

test('a value below, above and within its range says which way to turn and how far', () => {
  // 20 log10(5 / 10) = -6.02 dB
  expect(typedGain(5, reading, point)).toEqual({ verdict: 'too-low', says: 'up by 6.0 dB' });
  // 20 log10(12 / 10) = 1.58 dB
  expect(typedGain(12, reading, { decimal: ',' })).toEqual({ verdict: 'too-high', says: 'down by 1,6 dB' });
  expect(typedGain(10, reading, point)).toEqual({ verdict: 'within', says: 'on its target' });
  // 20 log10(9.8 / 10) = -0.175 dB
  expect(typedGain(9.8, reading, point)).toEqual({ verdict: 'within', says: 'within, 0.2 dB off' });
});

test('nothing is said of what is no number or has no target', () => {
  expect(typedGain(null, reading, point)).toBeNull();
  expect(typedGain(0, reading, point)).toBeNull();
  expect(typedGain(3, null, point)).toBeNull();
});

test('a plan without amplifiers says so', () => {
  expect(gainsSentence({ toneDbfs: -20, meterHz: 1000, cautions: [], sources: [], channels: [] }, point)).toBe(
    'The plan has no amplifier channel that drives a load yet.',
  );
});

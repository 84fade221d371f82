import { expect, test } from 'vitest';
import { stretchesWithSound } from './stretches.ts';

test('finds what sounds, with room on both sides, and joins what touches', () => {
  const signal = new Float64Array(100);
  signal[20] = 1;
  signal[24] = -1;
  signal[70] = 1;
  expect(stretchesWithSound(signal, 2, 5)).toEqual([
    { from: 18, to: 30 },
    { from: 68, to: 76 },
  ]);
  expect(stretchesWithSound(signal, 30, 40)).toEqual([{ from: 0, to: 100 }]);
});

test('finds nothing in silence, and stays inside the signal', () => {
  expect(stretchesWithSound(new Float64Array(10), 3, 3)).toEqual([]);
  expect(stretchesWithSound(Float64Array.of(1, 0, 1), 5, 5)).toEqual([{ from: 0, to: 3 }]);
});

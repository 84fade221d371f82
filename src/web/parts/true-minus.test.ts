import { expect, test } from 'vitest';
import { trueMinus } from './true-minus.ts';

test('numbers of a sentence get a true minus, names and ranges keep their hyphens', () => {
  expect(trueMinus('Set gains with a tone at -20 dBFS.')).toBe('Set gains with a tone at \u221220 dBFS.');
  expect(trueMinus('-3 dB (-6.5 dB at most)')).toBe('\u22123 dB (\u22126.5 dB at most)');
  expect(trueMinus('D-01, high-pass, 2026-03-04, part L-1')).toBe('D-01, high-pass, 2026-03-04, part L-1');
});

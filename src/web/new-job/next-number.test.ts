import { expect, test } from 'vitest';
import { nextNumber } from './next-number.ts';

test('the next card number follows the highest and keeps its width', () => {
  expect(nextNumber([{ number: '0407' }, { number: '0412' }, { number: 'B-9' }, {}])).toBe('0413');
  expect(nextNumber([{ number: '999' }])).toBe('1000');
});

test('the first card of a shop is 0001, and a shop that numbers in its own way is left alone', () => {
  expect(nextNumber([])).toBe('0001');
  expect(nextNumber([{ number: 'B-9' }, {}])).toBe('');
});

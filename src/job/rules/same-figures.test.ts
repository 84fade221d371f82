import { expect, test } from 'vitest';
import { sameFigures } from './same-figures.ts';

test('figures are the same although the last digit of another machine differs', () => {
  expect(sameFigures({ excursionV: 9.352682686293544 }, { excursionV: 9.352682686293546 })).toBe(true);
  expect(sameFigures({ a: 1, b: 'x' }, { b: 'x', a: 1 + 1e-12 })).toBe(true);
});

test('other figures, other names and other words are not the same', () => {
  expect(sameFigures({ excursionV: 9.3527 }, { excursionV: 9.3528 })).toBe(false);
  expect(sameFigures({ a: 1 }, { a: 1, b: 2 })).toBe(false);
  expect(sameFigures({ a: 1 }, { b: 1 })).toBe(false);
  expect(sameFigures({ a: 'x' }, { a: 'y' })).toBe(false);
});

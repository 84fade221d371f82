import { expect, test } from 'vitest';
import { agoText, dayText, durationText, whenText } from './times.ts';

const now = new Date(2026, 10, 12, 14, 20);

test('days count from midnight to midnight', () => {
  expect(agoText(new Date(2026, 10, 12, 0, 1), now)).toBe('today');
  expect(agoText(new Date(2026, 10, 11, 23, 59), now)).toBe('yesterday');
  expect(agoText(new Date(2026, 10, 3, 9, 0), now)).toBe('9 days ago');
});

test('a time of today needs no day', () => {
  expect(whenText(new Date(2026, 10, 12, 9, 5), now)).toBe('09:05');
  expect(whenText(new Date(2026, 10, 3, 9, 5), now)).toBe('Tue 3 Nov 09:05');
  expect(dayText(new Date(2026, 10, 3))).toBe('Tue 3 Nov');
});

test('a duration has the two units that matter', () => {
  expect([7.4, 65, 7800].map(durationText)).toEqual(['7 s', '1 min 05 s', '2 h 10 min']);
});

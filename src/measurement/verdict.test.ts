import { expect, test } from 'vitest';
import type { Problem, Severity } from './problems.ts';
import { verdictOf } from './verdict.ts';

const problem = (severity: Severity, message: string): Problem => ({ code: 'agc', severity, message, mend: '' });

test('a recording without problems is sound, with its signal to noise where that is known', () => {
  expect(verdictOf([], 33.6)).toBe('A sound recording, 34 dB over the background.');
  expect(verdictOf([], null)).toBe('A sound recording.');
});

test('the worst problem gives the verdict, whatever their order', () => {
  const [note, limit, stop] = [
    problem('note', 'The file says so.'),
    problem('limit', 'The gain moved.'),
    problem('stop', 'Every sample is zero.'),
  ];
  expect(verdictOf([note, limit, stop], 30)).toBe('Not usable: every sample is zero.');
  expect(verdictOf([note, limit], 30)).toBe('Usable in part: the gain moved.');
  expect(verdictOf([note], 30)).toBe('A sound recording, 30 dB over the background. Note: the file says so.');
});

test('a message keeps its capital where that is no sentence’s', () => {
  expect(verdictOf([problem('stop', 'A gap.')], null)).toBe('Not usable: a gap.');
  expect(verdictOf([problem('stop', 'AGC was on.')], null)).toBe('Not usable: AGC was on.');
  expect(verdictOf([problem('stop', '3 ms are lost.')], null)).toBe('Not usable: 3 ms are lost.');
});

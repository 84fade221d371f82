import { expect, test } from 'vitest';
import { asDriven, coversText, listed, nextCoverState } from './cover-words.ts';

const covers = (states: string) =>
  [...states].map((letter, n) => ({
    cover: 'ABCDEFGH'[n],
    state: { f: 'fastened', o: 'off', r: 'resting' }[letter] as 'fastened' | 'off' | 'resting',
  }));

test('a cover goes round: off, resting, fastened, off', () => {
  expect(nextCoverState('off')).toBe('resting');
  expect(nextCoverState('resting')).toBe('fastened');
  expect(nextCoverState('fastened')).toBe('off');
  expect(nextCoverState(undefined)).toBe('off');
});

test('covers are told by what is not as it should be', () => {
  expect(coversText(covers('fff'))).toBe('all covers fastened');
  expect(coversText(covers('foro'))).toBe('B and D off, C resting, the others fastened');
  expect(coversText(covers('oo'))).toBe('A and B off');
  expect(coversText([])).toBe('covers not said');
});

test('only a car with every cover fastened is the one that is driven', () => {
  expect(asDriven(covers('ffff'))).toBe(true);
  expect(asDriven(covers('ffrf'))).toBe(false);
  expect(asDriven([])).toBe(false);
});

test('names are listed as in a sentence', () => {
  expect([listed([]), listed(['A']), listed(['A', 'B', 'C'])]).toEqual(['', 'A', 'A, B and C']);
});

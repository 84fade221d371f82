import { describe, expect, test } from 'vitest';
import { editDistance, nearestWord } from './nearest-word.ts';

describe('editDistance', () => {
  test.each([
    ['', '', 0],
    ['', 'read', 4],
    ['read', 'read', 0],
    ['raed', 'read', 1],
    ['red', 'read', 1],
    ['reads', 'read', 1],
    ['kitten', 'sitting', 3],
    ['ca', 'abc', 3],
  ])('of %j and %j is %i', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });
});

describe('nearestWord', () => {
  const words = ['track', 'read', 'schema', 'expect-arrival'];

  test('finds what was mistyped, whatever its case', () => {
    expect(nearestWord('raed', words)).toBe('read');
    expect(nearestWord('Trakc', words)).toBe('track');
  });

  test('takes the beginning of a word for the word', () => {
    expect(nearestWord('expect', words)).toBe('expect-arrival');
  });

  test('says nothing rather than something far off', () => {
    expect(nearestWord('frobnicate', words)).toBeNull();
    expect(nearestWord('', words)).toBeNull();
    expect(nearestWord('x', [])).toBeNull();
  });
});

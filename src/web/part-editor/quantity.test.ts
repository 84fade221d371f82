import { describe, expect, test } from 'vitest';
import { inRange, quantities, rangeText, stepped, typedNumber } from './quantity.ts';

describe('a typed number', () => {
  test.each([
    ['2.5', 2.5],
    ['2,5', 2.5],
    [' 80 Hz', 80],
    ['1.6 kHz', 1600],
    ['1,6k', 1600],
    ['\u22123', -3],
  ])('%s Hz is read with point or comma and its unit', (text, value) => {
    expect(typedNumber(text, quantities.hertz)).toBe(value);
  });
  test('of length may be feet or inches: 17 ft are 5.1816 m', () => {
    expect(typedNumber('17 ft', quantities.metres)).toBeCloseTo(5.1816, 9);
    expect(typedNumber('62 in', quantities.metres)).toBeCloseTo(1.5748, 9);
  });
  test('of minutes may be hours, of level at the ear dB(A)', () => {
    expect(typedNumber('1,5 h', quantities.minutes)).toBe(90);
    expect(typedNumber('96 dB(A)', quantities.decibelsA)).toBe(96);
  });
  test.each(['', 'loud', '1.2.3', '80 m', '1e400x'])('"%s" is none', (text) => {
    expect(typedNumber(text, quantities.hertz)).toBeNull();
  });
});

test('the accepted range is said with its unit and the decimal sign of the place', () => {
  expect(rangeText({ min: 0.1, max: 2000 }, quantities.amperes, { decimal: ',' })).toBe('A number from 0,1 to 2000 A.');
  expect(inRange(1.5, { min: 1, max: 8, whole: true })).toBe(false);
});

describe('a step', () => {
  const range = { min: 1, max: 200_000 };
  test('is about a tenth, and goes back where it came from', () => {
    expect([80, 300, 2800].map((value) => stepped(value, 1, range))).toEqual([85, 320, 3000]);
    expect([85, 320, 100].map((value) => stepped(value, -1, range))).toEqual([80, 300, 95]);
  });
  test('goes through what can be bought where a list says so', () => {
    expect(stepped(30, 1, range, [20, 25, 30, 40])).toBe(40);
    expect(stepped(33, -1, range, [20, 25, 30, 40])).toBe(30);
    expect(stepped(40, 1, range, [20, 25, 30, 40])).toBe(40);
  });
  test('stops at the ends', () => {
    expect(stepped(1, -1, range)).toBe(1);
  });
});

import { describe, expect, test } from 'vitest';
import { hzText, percentText, significant, uncertainText } from './number-text.ts';

const style = { width: 80, unicode: true, colour: false };

describe('significant', () => {
  test.each([
    [0, 3, '0'],
    [1234.5, 2, '1200'],
    [0.012345, 2, '0.012'],
    [-2.7164, 3, '-2.72'],
    [96, 2, '96'],
  ])('%d with %i digits is %s', (value, digits, text) => {
    expect(significant(value, digits)).toBe(text);
  });
});

describe('hzText', () => {
  test.each([
    [24.81, '25 Hz'],
    [82.3, '82 Hz'],
    [99.4, '99 Hz'],
    [99.6, '99.6 Hz'],
    [349.2, '349 Hz'],
    [999.4, '999 Hz'],
    [1000, '1.00 kHz'],
    [3279, '3.28 kHz'],
    [12600, '12.6 kHz'],
  ])('%d Hz reads %s', (fHz, text) => {
    expect(hzText(fHz)).toBe(text);
  });
});

test('a percentage has two digits that carry', () => {
  expect(percentText(0.02316)).toBe('0.023 %');
  expect(percentText(11.7)).toBe('12 %');
});

describe('uncertainText', () => {
  test.each([
    [1.48656, 0.00382, '1.487 ± 0.004 ms'],
    [1.48656, 0.14, '1.5 ± 0.1 ms'],
    [12.3, 2.2, '12 ± 2 ms'],
    [1.48656, 1e-9, '1.486560 ± 0.000001 ms'],
  ])('%d with a deviation of %d', (value, sigma, text) => {
    expect(uncertainText(value, sigma, 'ms', style)).toBe(text);
  });

  test('says the value alone where the deviation is not known', () => {
    expect(uncertainText(1.48656, undefined, 'ms', style)).toBe('1.487 ms');
  });

  test('stays in ASCII where nothing else shows', () => {
    expect(uncertainText(1, 0.1, 'ms', { ...style, unicode: false })).toBe('1.0 +- 0.1 ms');
  });
});

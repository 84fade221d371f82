import { describe, expect, test } from 'vitest';
import { fixedText, frequencyText, percentText, signedText, significantText } from './number-words.ts';

const comma = { decimal: ',' } as const;

describe('numbers for a person', () => {
  test.each([
    [-7.26, 1, '\u22127.3'],
    [-0.04, 1, '0.0'],
    [12, 0, '12'],
  ])('%d with %d decimals reads %s', (value, decimals, text) => {
    expect(fixedText(value, decimals)).toBe(text);
  });

  test('a difference carries its sign, nothing carries none', () => {
    expect([signedText(5.2, 1, comma), signedText(-4.1, 1, comma), signedText(0.01, 1, comma)]).toEqual([
      '+5,2',
      '\u22124,1',
      '0,0',
    ]);
  });

  test.each([
    [0.02345, 2, '0.023'],
    [9.96, 2, '10'],
    [1.1, 2, '1.1'],
    [4, 2, '4'],
    [0, 2, '0'],
  ])('%d with %d digits that carry reads %s', (value, digits, text) => {
    expect(significantText(value, digits)).toBe(text);
  });

  test.each([
    [82.31, '82 Hz'],
    [212.4, '212 Hz'],
    [999.4, '999 Hz'],
    [999.6, '1 kHz'],
    [1612, '1.61 kHz'],
    [12_500, '12.5 kHz'],
    [20_000, '20 kHz'],
  ])('the frequency %d reads %s', (fHz, text) => {
    expect(frequencyText(fHz)).toBe(text);
  });

  test('the decimal sign is the reader\u2019s', () => {
    expect([frequencyText(1612, comma), percentText(1.13, comma)]).toEqual(['1,61 kHz', '1,1 %']);
  });
});

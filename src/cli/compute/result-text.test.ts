import { describe, expect, test } from 'vitest';
import { nameAndUnit, numberText, resultText } from './result-text.ts';

const style = { width: 80, unicode: false, colour: false };

describe('the text of results', () => {
  test.each([
    ['dropV', 'drop', 'V'],
    ['dropPct', 'drop', '%'],
    ['milliOhm', 'resistance', 'mOhm'],
    ['twa8hDba', 'eight-hour average', 'dBA'],
    ['areaMm2', 'area', 'mm2'],
    ['needsOwnFuse', 'needs own fuse', ''],
    ['kTemp', 'k temp', ''],
    ['ohm', 'resistance', 'ohm'],
    ['atEarDba', 'at ear', 'dBA'],
    ['constructor', 'constructor', ''],
    ['V', 'v', ''],
  ])('says %s as "%s" in %s', (name, words, unit) => {
    expect(nameAndUnit(name)).toEqual([words, unit]);
  });

  test.each([
    [0, '0'],
    [-0.5, '-0.5'],
    [0.007483339, '0.007483'],
    [1234.56, '1235'],
    [999.96, '1000'],
    [1.5e12, '1.500e+12'],
    [2e-9, '2.000e-9'],
  ])('writes %d as %s', (value, text) => {
    expect(numberText(value)).toBe(text);
  });

  test('stands in 80 columns, with lists cut short and notes below', () => {
    const results = {
      ohms: Array.from({ length: 500 }, (_, i) => i + 0.5),
      shares: { Front: 0.5, 'x\u001b[31m': 0.5, ['n'.repeat(200)]: 0 },
      branches: [{ name: 'sub amp', needsOwnFuse: false }],
      snrDb: null,
    };
    const text = resultText('heading', results, [['Caution', 'word '.repeat(30).trim()]], style);
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(text).toContain('and 440 more ohm');
    expect(text).toContain('Front 0.5, x?[31m 0.5');
    expect(text).toMatch(/branches +name sub amp, needs own fuse no/);
    expect(text).toMatch(/snr +none\n/);
    expect(text).toMatch(/\n\nCaution: word/);
  });
});

import { describe, expect, test } from 'vitest';
import { numberValue, pairValue, wordValue } from './option-values.ts';

const level = { min: -60, max: 0, unit: 'dBFS' };

describe('numberValue', () => {
  test.each([
    ['-20', -20],
    ['-60', -60],
    ['0', 0],
    ['-.5', -0.5],
    ['-1e1', -10],
    ['-2,5', -2.5],
    ['-0,125', -0.125],
  ])('reads %j', (text, value) => {
    expect(numberValue('level', text, level)).toEqual({ ok: true, value });
  });

  test.each([
    '',
    ' ',
    'loud',
    '-60.001',
    '0.1',
    '-1,500',
    '-1,5,0',
    '-1.5,0',
    '0x10',
    'NaN',
    'Infinity',
    '-20dB',
    '--3',
  ])('refuses %j', (text) => {
    expect(numberValue('level', text, level).ok).toBe(false);
  });

  test('names option, value, range and unit', () => {
    const { issues } = numberValue('level', '3', level) as { issues: { message: string; where?: string }[] };
    expect(issues[0].message).toBe('--level must be a number from -60 to 0 dBFS, got "3".');
    expect(issues[0].where).toBe('--level');
  });

  test('takes whole numbers only where a count is meant', () => {
    const count = { min: 1, max: 8, whole: true };
    expect(numberValue('input', '2', count).ok).toBe(true);
    expect(numberValue('input', '1.5', count).ok).toBe(false);
  });
});

describe('pairValue', () => {
  const ms = { min: -1000, max: 1000, unit: 'ms' };

  test('reads two numbers that rise, negative ones too where a colon parts them', () => {
    expect(pairValue('expect-arrival', '-2:5.5', ':', ms)).toEqual({ ok: true, value: { from: -2, to: 5.5 } });
    expect(pairValue('band', '40-8000', '-', { min: 1, max: 96000 })).toEqual({
      ok: true,
      value: { from: 40, to: 8000 },
    });
  });

  test.each(['5:5', '6:5', '5', '1:2:3', ':5', '5:', 'a:b', '0:1001'])('refuses %j', (text) => {
    expect(pairValue('expect-arrival', text, ':', ms).ok).toBe(false);
  });
});

describe('wordValue', () => {
  test('takes a known word and names a near one', () => {
    expect(wordValue('side', 'left', ['left', 'right'])).toEqual({ ok: true, value: 'left' });
    const refused = wordValue('side', 'lefft', ['left', 'right']);
    expect(refused.ok ? '' : refused.issues[0].mend).toBe('Did you mean --side left?');
  });
});

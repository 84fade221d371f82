import { describe, expect, test } from 'vitest';
import { readCall } from './arguments.ts';

const command = {
  name: 'play',
  options: [
    { name: 'level', value: 'DBFS', meaning: 'how loud' },
    { name: 'out', value: 'F.wav', meaning: 'where to' },
    { name: 'dry', meaning: 'without sound' },
  ],
};

function call(...words: string[]) {
  const read = readCall(words, command);
  return read.ok
    ? { operands: read.value.operands, given: Object.fromEntries(read.value.given) }
    : read.issues.map(({ code, where }) => [code, where]);
}

describe('readCall', () => {
  test('tells operands from options, in any order and both spellings', () => {
    const meant = { operands: ['a', 'b'], given: { level: '-20', dry: '' } };
    expect(call('a', '--level', '-20', 'b', '--dry')).toEqual(meant);
    expect(call('--level=-20', '--dry', 'a', 'b')).toEqual(meant);
  });

  test('takes a number with a minus as a value, not as an option', () => {
    expect(call('--level', '-.5')).toEqual({ operands: [], given: { level: '-.5' } });
    expect(call('--level', '-30:-6:3')).toEqual({ operands: [], given: { level: '-30:-6:3' } });
  });

  test('takes a negative number without an option as one operand', () => {
    expect(call('-22', 'a', '-1.5')).toEqual({ operands: ['-22', 'a', '-1.5'], given: {} });
  });

  test('does not stumble over the value of an option it does not know', () => {
    expect(call('--levl', '-20')).toEqual([['unknown-option', '--levl']]);
    expect(call('--levl=3', '-20')).toEqual([['unknown-option', '--levl']]);
  });

  test('takes everything after -- as operands', () => {
    expect(call('--', '--dry')).toEqual({ operands: ['--dry'], given: {} });
  });

  test('misses a value at the end of the call and before the next option', () => {
    expect(call('--level')).toEqual([['value-missing', '--level']]);
    expect(call('--out', '--dry')).toEqual([['value-missing', '--out']]);
  });

  test('keeps an empty value, which the command may refuse', () => {
    expect(call('--out=')).toEqual({ operands: [], given: { out: '' } });
  });

  test('reports every word it does not understand, not only the first', () => {
    expect(call('--levle', '3', '-x', '--dry=yes', '--out', 'a', '--out', 'b')).toEqual([
      ['unknown-option', '--levle'],
      ['unknown-option', '-x'],
      ['value-not-expected', '--dry'],
      ['option-twice', '--out'],
    ]);
  });

  test('names the option that was most likely meant', () => {
    const read = readCall(['--levle', '3'], command);
    expect(read.ok ? '' : read.issues[0].mend).toContain('Did you mean --level?');
  });

  test('does not take a name that every object has for an option', () => {
    expect(call('--constructor')).toEqual([['unknown-option', '--constructor']]);
  });
});

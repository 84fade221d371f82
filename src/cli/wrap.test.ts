import { describe, expect, test } from 'vitest';
import { twoColumns, wrapped } from './wrap.ts';

describe('wrapped', () => {
  test('breaks at spaces and keeps to the width', () => {
    expect(wrapped('one two three', 7)).toEqual(['one two', 'three']);
    expect(wrapped('one two three', 8)).toEqual(['one two', 'three']);
    expect(wrapped('one two three', 13)).toEqual(['one two three']);
  });

  test('lets a word that is too long stand alone', () => {
    expect(wrapped('a incomprehensible b', 5)).toEqual(['a', 'incomprehensible', 'b']);
  });

  test('keeps line ends and the indent of a line, and indents what follows', () => {
    expect(wrapped('  1. one two\nthree', 9, 5)).toEqual(['  1. one', '     two', 'three']);
  });

  test('makes one empty line of nothing', () => {
    expect(wrapped('', 10)).toEqual(['']);
  });
});

describe('twoColumns', () => {
  test('sets a narrow column and wraps the text beside it', () => {
    expect(
      twoColumns(
        [
          ['a', 'one two three four five'],
          ['bb', 'six'],
        ],
        26,
      ),
    ).toEqual(['  a   one two three four', '      five', '  bb  six']);
  });

  test('puts the text under a cell that is too wide', () => {
    expect(twoColumns([['much-too-wide', 'text']], 40, 5)).toEqual(['  much-too-wide', '         text']);
  });
});

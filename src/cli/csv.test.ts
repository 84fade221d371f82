import { expect, test } from 'vitest';
import { csvText } from './csv.ts';

test('a table keeps commas, quotes and line breaks in their cells, and leaves what is not known empty', () => {
  const rows = [
    ['a,b', 1 / 3],
    ['"x"\ny', null],
  ];
  expect(csvText(['id', 'lengthM'], rows)).toBe('id,lengthM\n"a,b",0.3333333\n"""x""\ny",\n');
});

test('a name that a spreadsheet would run as a formula stays a name', () => {
  expect(csvText(['name'], [['=HYPERLINK("x")'], ['@a'], [-1]])).toBe('name\n"\'=HYPERLINK(""x"")"\n\'@a\n-1\n');
});

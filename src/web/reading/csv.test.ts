import { expect, test } from 'vitest';
import { curvesCsv } from './csv.ts';

test('columns on different grids stand on the union of their frequencies', () => {
  const csv = curvesCsv([
    { name: 'levelDb', fHz: [100, 200], values: [-20.1234567891, null] },
    { name: 'T2, "after"', fHz: [200.0000001, 400], values: [true, -3] },
  ]);
  expect(csv).toBe('fHz,levelDb,"T2, ""after"""\n100,-20.12346,\n200,,true\n400,,-3\n');
});

test('nothing gives the heading alone', () => {
  expect(curvesCsv([])).toBe('fHz\n');
});

import { expect, test } from 'vitest';
import { curvesCsv, impulseCsv } from './csv.ts';

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

test('an impulse is written sample by sample, in milliseconds from the direct sound', () => {
  const impulse = { rateHz: 8000, arrivalIndex: 1, samples: Float64Array.of(0, 1, -0.123456789) };
  expect(impulseCsv(impulse)).toBe('timeMs,value\n-0.125,0\n0,1\n0.125,-0.1234568\n');
});

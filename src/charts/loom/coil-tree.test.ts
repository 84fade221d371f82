import { expect, test } from 'vitest';
import { coilTree } from './coil-tree.ts';

test('coils in series lie side by side, coils in parallel one under the other', () => {
  const series = coilTree({ s: ['a', 'b'] });
  const parallel = coilTree({ p: ['a', 'b'] });
  expect(series.coils).toHaveLength(2);
  expect(series.widthPx).toBeGreaterThan(parallel.widthPx);
  expect(series.heightPx).toBeLessThan(parallel.heightPx);
});

test('a drawing holds every coil once, and nothing lies outside it', () => {
  const tree = coilTree({ s: ['a', { p: ['b', { s: ['c', 'd'] }] }] });
  expect(tree.coils).toHaveLength(4);
  const starts = tree.coils.map((d) => /^M([\d.]+) ([\d.]+)/.exec(d)?.slice(1).map(Number) ?? []);
  for (const [x, y] of starts) {
    expect(x).toBeGreaterThan(0);
    expect(x + 22).toBeLessThan(tree.widthPx);
    expect(y).toBeGreaterThan(0);
    expect(y).toBeLessThan(tree.heightPx);
  }
  expect(new Set(starts.map(String)).size).toBe(4);
});

import { expect, test } from 'vitest';
import { fuseScale } from './fuse-scale.ts';

test('the scale holds every current between two of its steps', () => {
  const { fromA, toA, ticks, place } = fuseScale([1.5, 125, 150]);
  expect([fromA, toA]).toEqual([1, 200]);
  expect(ticks).toEqual([1, 2, 5, 10, 20, 50, 100, 200]);
  expect(place(1)).toBe(0);
  expect(place(200)).toBe(1);
  // log(20) / log(200)
  expect(place(20)).toBeCloseTo(0.5654, 4);
});

test('what lies outside stands at the end, and no current at all still gives a scale', () => {
  const { fromA, toA, place } = fuseScale([]);
  expect(fromA).toBeLessThan(1.01);
  expect(toA).toBeGreaterThan(200);
  expect([place(0), place(1e9)]).toEqual([0, 1]);
  expect(fuseScale([Number.NaN, -3, 30]).place(30)).toBeGreaterThan(0);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type CoverSet, exactSetsMax, fewestSets } from './set-cover.ts';

const setOf = (items: number[], cost = 1): CoverSet => ({ items: new Set(items), cost });

/** Every choice tried: the fewest that hold all that can be held. */
function fewestByTrying(count: number, sets: readonly CoverSet[]): number {
  const coverable = Array.from({ length: count }, (_, item) => item).filter((item) =>
    sets.some(({ items }) => items.has(item)),
  );
  let fewest = sets.length;
  for (let choice = 0; choice < 1 << sets.length; choice++) {
    const chosen = sets.filter((_, n) => choice & (1 << n));
    if (chosen.length < fewest && coverable.every((item) => chosen.some(({ items }) => items.has(item))))
      fewest = chosen.length;
  }
  return fewest;
}

test('no choice holds all with fewer sets, against every choice tried', () => {
  const family = fc.array(fc.tuple(fc.array(fc.nat(7), { minLength: 1, maxLength: 4 }), fc.nat(5)), {
    minLength: 1,
    maxLength: 9,
  });
  fc.assert(
    fc.property(family, (drawn) => {
      const sets = drawn.map(([items, cost]) => setOf(items, cost));
      const { chosen, exact } = fewestSets(8, sets);
      expect(exact).toBe(true);
      expect(chosen.length).toBe(fewestByTrying(8, sets));
      const held = new Set(chosen.flatMap((n) => [...sets[n].items]));
      expect(held).toEqual(new Set(sets.flatMap(({ items }) => [...items])));
      expect(fewestSets(8, sets)).toEqual({ chosen, exact });
    }),
    { numRuns: 300, seed: 7 },
  );
});

test('the largest set first is not always the shortest way, and the search finds that', () => {
  // Six of eight in one set leaves two that want a set each; two sets of four hold all.
  const sets = [setOf([0, 1, 2, 4, 5, 6]), setOf([0, 1, 2, 3]), setOf([4, 5, 6, 7])];
  expect(fewestSets(8, sets)).toEqual({ chosen: [1, 2], exact: true });
});

test('of sets that hold what is needed the cheapest is taken', () => {
  expect(fewestSets(2, [setOf([0, 1], 9), setOf([0, 1], 2), setOf([0], 1)])).toEqual({ chosen: [1], exact: true });
  // The large one is needed for nothing but what the small one holds too.
  expect(fewestSets(1, [setOf([0, 1], 9), setOf([0], 1)])).toEqual({ chosen: [1], exact: true });
});

test('what nothing holds is left out, and nothing asks for nothing', () => {
  expect(fewestSets(3, [setOf([1])])).toEqual({ chosen: [0], exact: true });
  expect(fewestSets(0, [])).toEqual({ chosen: [], exact: true });
});

test('beyond its limit it says that it took the largest first, and still holds all', () => {
  // A ring: each set holds an item and the next, so that none is forced and none is within another.
  const count = exactSetsMax + 7;
  const ring = Array.from({ length: count }, (_, n) => setOf([n, (n + 1) % count]));
  const { chosen, exact } = fewestSets(count, ring);
  expect(exact).toBe(false);
  expect(new Set(chosen.flatMap((n) => [...ring[n].items])).size).toBe(count);
});

test('thousands of sets, most of which hold one item that nothing else holds, take no time', () => {
  const count = 3000;
  const sets = [
    ...Array.from({ length: count }, (_, n) => setOf([n])),
    setOf(Array.from({ length: 900 }, (_, n) => n)),
    setOf(Array.from({ length: 600 }, (_, n) => n)),
  ];
  const began = performance.now();
  const { chosen, exact } = fewestSets(count, sets);
  expect([chosen.length, exact]).toEqual([count - 900 + 1, true]);
  expect(performance.now() - began).toBeLessThan(1000);
});

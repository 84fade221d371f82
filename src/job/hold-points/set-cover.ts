// The fewest sets that together hold every item: exact while the sets that are left are few, else the largest first.

export interface CoverSet {
  /** Indices of the items that it holds. */
  items: ReadonlySet<number>;
  /** What it costs, 0 or more. */
  cost: number;
}

/** So many sets that remain after the forced ones are searched to the end. */
export const exactSetsMax = 18;

interface Best {
  chosen: number[];
  cost: number;
}

/**
 * Indices of the sets chosen, in their order, and whether no smaller choice exists.
 *
 * Sets that hold no more than another one are left out, and what one set alone holds takes that set. What remains is searched
 * to the end by branching on the item that the fewest sets hold; beyond `exactSetsMax` sets each step takes the set that holds
 * most of what is left. In the end each chosen set gives way to the cheapest one that holds what it alone was chosen for. The
 * same input gives the same answer.
 *
 * @param count  items are 0 .. count - 1; those that no set holds are left out of account
 */
export function fewestSets(count: number, sets: readonly CoverSet[]): { chosen: number[]; exact: boolean } {
  const coverable = Array.from({ length: count }, (_, item) => item).filter((item) =>
    sets.some(({ items }) => items.has(item)),
  );
  let left = new Set(coverable);
  const chosen: number[] = [];
  const take = (index: number) => {
    chosen.push(index);
    left = new Set([...left].filter((item) => !sets[index].items.has(item)));
  };
  let usable = undominated(sets, left);
  for (let forced = forcedSet(sets, usable, left); forced !== undefined; forced = forcedSet(sets, usable, left)) {
    take(forced);
    usable = undominated(sets, left);
  }
  const exact = usable.length <= exactSetsMax;
  if (exact) for (const index of search(sets, usable, left)) take(index);
  while (left.size > 0) take(largest(sets, usable, left));
  return { chosen: cheapened(sets, chosen, coverable).sort((a, b) => a - b), exact };
}

/** Each set in turn gives way to the cheapest that holds what no other of the chosen ones does. */
function cheapened(sets: readonly CoverSet[], chosen: readonly number[], coverable: readonly number[]): number[] {
  const now = [...chosen];
  now.forEach((index, n) => {
    const needed = coverable.filter(
      (item) => sets[index].items.has(item) && !now.some((other, m) => m !== n && sets[other].items.has(item)),
    );
    sets.forEach((set, candidate) => {
      if (set.cost < sets[now[n]].cost && needed.every((item) => set.items.has(item))) now[n] = candidate;
    });
  });
  return now;
}

const held = (set: CoverSet, left: ReadonlySet<number>) => [...left].filter((item) => set.items.has(item)).length;

/** Sets that hold something of what is left, without those that hold no more than another one. */
function undominated(sets: readonly CoverSet[], left: ReadonlySet<number>): number[] {
  const useful = sets.flatMap((set, index) => (held(set, left) > 0 ? [index] : []));
  const within = (a: number, b: number) =>
    [...left].every((item) => !sets[a].items.has(item) || sets[b].items.has(item));
  const beats = (b: number, a: number) =>
    !within(b, a) || sets[b].cost < sets[a].cost || (sets[b].cost === sets[a].cost && b < a);
  return useful.filter((a) => !useful.some((b) => a !== b && within(a, b) && beats(b, a)));
}

function forcedSet(
  sets: readonly CoverSet[],
  usable: readonly number[],
  left: ReadonlySet<number>,
): number | undefined {
  for (const item of left) {
    const holding = usable.filter((index) => sets[index].items.has(item));
    if (holding.length === 1) return holding[0];
  }
  return undefined;
}

function largest(sets: readonly CoverSet[], usable: readonly number[], left: ReadonlySet<number>): number {
  return usable.reduce((best, index) => {
    const [more, most] = [held(sets[index], left), held(sets[best], left)];
    return more > most || (more === most && sets[index].cost < sets[best].cost) ? index : best;
  });
}

function search(sets: readonly CoverSet[], usable: readonly number[], left: ReadonlySet<number>): number[] {
  let best: Best | null = null;
  const walk = (open: ReadonlySet<number>, chosen: number[], cost: number): void => {
    const known = best as Best | null;
    if (known !== null) {
      const after = chosen.length + (open.size > 0 ? 1 : 0);
      if (after > known.chosen.length || (after === known.chosen.length && cost >= known.cost)) return;
    }
    if (open.size === 0) {
      best = { chosen: [...chosen], cost };
      return;
    }
    let branch: number[] = [...usable];
    for (const item of open) {
      const holding = usable.filter((index) => sets[index].items.has(item));
      if (holding.length < branch.length) branch = holding;
    }
    for (const index of branch) {
      const rest = new Set([...open].filter((item) => !sets[index].items.has(item)));
      walk(rest, [...chosen, index], cost + sets[index].cost);
    }
  };
  walk(left, [], 0);
  return (best as Best | null)?.chosen ?? [];
}

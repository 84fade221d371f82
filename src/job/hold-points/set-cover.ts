// The fewest sets that together hold every item: exact while the sets that are left are few, else the largest first.

export interface CoverSet {
  /** Indices of the items that it holds. */
  items: ReadonlySet<number>;
  /** What it costs, 0 or more. */
  cost: number;
}

/** So many sets that remain after the forced ones are searched to the end. */
export const exactSetsMax = 18;

/** What is still to be held, by the sets that may hold it; sets have lost the items that are held already. */
interface Rest {
  /** Items by set; a set without items is gone. */
  bySet: Map<number, Set<number>>;
  byItem: Map<number, Set<number>>;
}

/**
 * Indices of the sets chosen, in their order, and whether no smaller choice exists.
 *
 * Sets that hold no more than another one are left out, and what one set alone holds takes that set, until neither changes
 * anything. What remains is searched to the end by branching on the item that the fewest sets hold; beyond `exactSetsMax`
 * sets each step takes the set that holds most of what is left. In the end each chosen set gives way to the cheapest one that
 * holds what it alone was chosen for. The same input gives the same answer.
 *
 * @param count  items are 0 .. count - 1; those that no set holds are left out of account
 */
export function fewestSets(count: number, sets: readonly CoverSet[]): { chosen: number[]; exact: boolean } {
  const rest = restOf(count, sets);
  const chosen: number[] = [];
  const choose = (set: number) => {
    chosen.push(set);
    take(rest, set);
  };
  for (let changed = true; changed; ) {
    const forced = [...rest.byItem.values()].find((holding) => holding.size === 1);
    if (forced === undefined) changed = dropDominated(rest, sets);
    else for (const set of forced) choose(set);
  }
  const exact = rest.bySet.size <= exactSetsMax;
  if (exact) for (const set of searched(rest)) choose(set);
  while (rest.byItem.size > 0) choose(largest(rest, sets));
  return { chosen: cheapened(sets, chosen).sort((a, b) => a - b), exact };
}

function restOf(count: number, sets: readonly CoverSet[]): Rest {
  const rest: Rest = { bySet: new Map(), byItem: new Map() };
  sets.forEach(({ items }, set) => {
    for (const item of items) {
      if (item < 0 || item >= count) continue;
      rest.bySet.set(set, (rest.bySet.get(set) ?? new Set()).add(item));
      rest.byItem.set(item, (rest.byItem.get(item) ?? new Set()).add(set));
    }
  });
  return rest;
}

/** What `set` holds is held. */
function take({ bySet, byItem }: Rest, set: number): void {
  for (const item of bySet.get(set) ?? []) {
    for (const holding of byItem.get(item) ?? []) {
      const items = bySet.get(holding);
      if (holding === set || items === undefined) continue;
      items.delete(item);
      if (items.size === 0) bySet.delete(holding);
    }
    byItem.delete(item);
  }
  bySet.delete(set);
}

/** Leaves out sets that hold no more than another one; of equals the cheaper stays, then the first. Whether any went. */
function dropDominated({ bySet, byItem }: Rest, sets: readonly CoverSet[]): boolean {
  let dropped = false;
  for (const [set, items] of bySet) {
    // Whatever holds all of them holds the one that the fewest hold.
    let rarest: ReadonlySet<number> | undefined;
    for (const item of items) {
      const holding = byItem.get(item);
      if (holding !== undefined && (rarest === undefined || holding.size < rarest.size)) rarest = holding;
    }
    for (const other of rarest ?? []) {
      const larger = bySet.get(other);
      if (other === set || larger === undefined || larger.size < items.size) continue;
      if (![...items].every((item) => larger.has(item))) continue;
      const same = larger.size === items.size;
      const [own, its] = [sets[set].cost, sets[other].cost];
      if (same && (its > own || (its === own && other > set))) continue;
      for (const item of items) byItem.get(item)?.delete(set);
      bySet.delete(set);
      dropped = true;
      break;
    }
  }
  return dropped;
}

function largest({ bySet }: Rest, sets: readonly CoverSet[]): number {
  let best = -1;
  for (const [set, items] of bySet) {
    const most = bySet.get(best)?.size ?? 0;
    if (items.size > most || (items.size === most && sets[set].cost < sets[best].cost)) best = set;
  }
  return best;
}

/** The fewest of what is left. */
function searched({ bySet, byItem }: Rest): number[] {
  let best: number[] | null = null;
  const walk = (open: ReadonlySet<number>, chosen: readonly number[]): void => {
    if (best !== null && chosen.length + (open.size > 0 ? 1 : 0) >= best.length) return;
    if (open.size === 0) {
      best = [...chosen];
      return;
    }
    let branch: ReadonlySet<number> | undefined;
    for (const item of open) {
      const holding = byItem.get(item);
      if (holding !== undefined && (branch === undefined || holding.size < branch.size)) branch = holding;
    }
    for (const set of branch ?? []) {
      const items = bySet.get(set);
      walk(new Set([...open].filter((item) => !items?.has(item))), [...chosen, set]);
    }
  };
  walk(new Set(byItem.keys()), []);
  return best ?? [];
}

/** Each set in turn gives way to the cheapest that holds what no other of the chosen ones does. */
function cheapened(sets: readonly CoverSet[], chosen: readonly number[]): number[] {
  const times = new Map<number, number>();
  const count = (set: number, by: number) => {
    for (const item of sets[set].items) times.set(item, (times.get(item) ?? 0) + by);
  };
  for (const set of chosen) count(set, 1);
  const byItem = new Map<number, number[]>();
  sets.forEach(({ items }, set) => {
    for (const item of items) byItem.set(item, [...(byItem.get(item) ?? []), set]);
  });
  return chosen.map((set) => {
    const needed = [...sets[set].items].filter((item) => times.get(item) === 1);
    const [first] = needed;
    let now = set;
    for (const other of first === undefined ? [] : (byItem.get(first) ?? [])) {
      if (sets[other].cost >= sets[now].cost) continue;
      if (needed.every((item) => sets[other].items.has(item))) now = other;
    }
    if (now !== set) {
      count(set, -1);
      count(now, 1);
    }
    return now;
  });
}

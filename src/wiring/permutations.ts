// Leads that sit on each other's terminals: who sits where, and by how few exchanges it came to that.

/** `to[i]` is where the lead meant for terminal i sits. */
export type Permutation = readonly number[];

/** The cycles longer than one, each starting with its lowest member, in order. */
export function cyclesOf(permutation: Permutation): number[][] {
  const seen = new Set<number>();
  const cycles: number[][] = [];
  permutation.forEach((_, start) => {
    const cycle: number[] = [];
    for (let at = start; !seen.has(at); at = permutation[at]) {
      seen.add(at);
      cycle.push(at);
    }
    if (cycle.length > 1) cycles.push(cycle);
  });
  return cycles;
}

/** Fewest exchanges of two leads that make the permutation. */
export function exchangesOf(permutation: Permutation): number {
  return cyclesOf(permutation).reduce((sum, cycle) => sum + cycle.length - 1, 0);
}

/** First `first`, then `then`. */
export function after(first: Permutation, then: Permutation): number[] {
  return first.map((at) => then[at]);
}

export function inverse(permutation: Permutation): number[] {
  const back = new Array<number>(permutation.length);
  permutation.forEach((to, from) => {
    back[to] = from;
  });
  return back;
}

/**
 * All pairs of permutations, one after the other, that make `whole` with no exchange wasted.
 *
 * Each exchange taken from the left end of `whole` that shortens it leads to the next pair; those that can be reached so
 * are all there are (the interval below `whole` in the absolute order of the symmetric group).
 * Source: T. Brady, A partial order on the symmetric group and new K(pi, 1)'s for the braid groups, Adv. Math. 161, 2001.
 */
export function splitsOf(whole: Permutation): { first: number[]; then: number[] }[] {
  const identity = whole.map((_, i) => i);
  const splits: { first: number[]; then: number[] }[] = [];
  const seen = new Set<string>();
  const queue = [identity];
  for (let first = queue.pop(); first; first = queue.pop()) {
    if (seen.has(first.join())) continue;
    seen.add(first.join());
    const then = after(inverse(first), whole);
    splits.push({ first, then });
    // An exchange within a cycle of the rest shortens the rest by one.
    for (const cycle of cyclesOf(then)) {
      for (let i = 0; i < cycle.length; i++) {
        for (let j = i + 1; j < cycle.length; j++) {
          const longer = first.map((to) => (to === cycle[i] ? cycle[j] : to === cycle[j] ? cycle[i] : to));
          if (exchangesOf(longer) === exchangesOf(first) + 1) queue.push(longer);
        }
      }
    }
  }
  return splits;
}

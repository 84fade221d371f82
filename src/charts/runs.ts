// Unbroken stretches of a condition along an index.

/** First and last index of each stretch in which `holds`. */
export function runs(length: number, holds: (index: number) => boolean): [from: number, to: number][] {
  const found: [number, number][] = [];
  let from = -1;
  for (let index = 0; index <= length; index++) {
    const inside = index < length && holds(index);
    if (inside && from < 0) from = index;
    if (!inside && from >= 0) found.push([from, index - 1]);
    if (!inside) from = -1;
  }
  return found;
}

/** Stretches of the x axis, halfway to the neighbours that are not in them; `x` rises. */
export function stretchesOf(x: readonly number[], holds: (index: number) => boolean): { from: number; to: number }[] {
  return runs(x.length, holds).map(([from, to]) => ({
    from: from === 0 ? x[0] : Math.sqrt(x[from - 1] * x[from]),
    to: to === x.length - 1 ? x[to] : Math.sqrt(x[to] * x[to + 1]),
  }));
}

// Where a long signal holds sound: what rests long enough to have died away need not be solved.

/** Samples `from` .. `to - 1`. */
export interface Stretch {
  from: number;
  to: number;
}

/**
 * Stretches of a signal that hold sound, each lengthened by `before` and `after` samples; overlapping ones are joined.
 *
 * @param signal  exact zeros are silence
 * @returns in order, apart, inside the signal; none for a silent signal
 */
export function stretchesWithSound(signal: Float64Array, before: number, after: number): Stretch[] {
  const found: Stretch[] = [];
  let open: Stretch | null = null;
  for (let n = 0; n < signal.length; n++) {
    if (signal[n] === 0) continue;
    const from = Math.max(0, n - before);
    const to = Math.min(signal.length, n + 1 + after);
    if (open && from <= open.to) open.to = to;
    else {
      open = { from, to };
      found.push(open);
    }
  }
  return found;
}

// The frequencies at which answers are given.

/** f = 1000 * 2^(k / perOctave) from `lowHz` to `highHz`, both ends included where they fit. */
export function octaveGrid(lowHz: number, highHz: number, perOctave: number): number[] {
  const first = Math.ceil(perOctave * Math.log2(lowHz / 1000) - 1e-9);
  const last = Math.floor(perOctave * Math.log2(highHz / 1000) + 1e-9);
  const grid: number[] = [];
  for (let k = first; k <= last; k++) grid.push(1000 * 2 ** (k / perOctave));
  return grid;
}

/** Exact mid-band frequencies of the base-ten third octaves between two limits (IEC 61260-1). */
export function thirdOctaves(lowHz: number, highHz: number): number[] {
  const first = Math.ceil(10 * Math.log10(lowHz / 1000) - 1e-9);
  const last = Math.floor(10 * Math.log10(highHz / 1000) + 1e-9);
  const grid: number[] = [];
  for (let k = first; k <= last; k++) grid.push(1000 * 10 ** (k / 10));
  return grid;
}

// Load, fuse and cable on one logarithmic scale of amperes: they must stand in that order.

export interface FuseScale {
  fromA: number;
  toA: number;
  /** Values with a line, and whether it carries a label. */
  ticks: number[];
  /** Place of a current along the scale, 0 .. 1; what lies outside stands at its end. */
  place: (currentA: number) => number;
}

const steps = [1, 2, 5];

/** A scale that holds all of `currentsA`, from one step of 1, 2, 5 to another. Without any it goes from 1 to 200 A. */
export function fuseScale(currentsA: readonly number[]): FuseScale {
  const sound = currentsA.filter((current) => Number.isFinite(current) && current > 0);
  const least = Math.max(0.1, Math.min(...sound, sound.length > 0 ? Number.POSITIVE_INFINITY : 1));
  const most = Math.min(5000, Math.max(...sound, sound.length > 0 ? 0 : 200));
  const all = [-1, 0, 1, 2, 3].flatMap((decade) => steps.map((step) => Number(`${step}e${decade}`)));
  const fromA = all.findLast((value) => value < least * 0.97) ?? all[0];
  const toA = all.find((value) => value > most * 1.03) ?? 10_000;
  const place = (currentA: number) =>
    Math.min(1, Math.max(0, Math.log(Math.max(currentA, fromA) / fromA) / Math.log(toA / fromA)));
  return { fromA, toA, ticks: all.filter((value) => value >= fromA && value <= toA), place };
}

// The ratio of two engine speeds that nobody noted, from the tones themselves.
import { standsStill } from './order-tracking.ts';
import type { FoundTone } from './tone-search.ts';

const LOWEST = 1.1;
const HIGHEST = 6;
const STEP = 1.001;
/** Two frequencies agree with a ratio within this share. */
const AGREES = 0.004;
const LEAST_PAIRS = 2;
/** The best ratio must carry this much more than any other. */
const CLEARLY = 1.5;
/** Ratios this near to each other are one. */
const SAME = 0.02;

/**
 * How much faster the engine turned in the second recording: the ratio at which most of the sound pairs up.
 *
 * Tones that stand still are left out. One pair alone could be anything, so two are asked for, and one and a half times
 * the weight of the next best ratio.
 *
 * @returns null where no ratio stands out
 * Source: own method.
 */
export function speedRatio(first: readonly FoundTone[], second: readonly FoundTone[]): number | null {
  const moving = (tones: readonly FoundTone[], others: readonly FoundTone[]) =>
    tones.filter((tone) => !others.some((other) => standsStill(tone, other)));
  const [ones, twos] = [moving(first, second), moving(second, first)];
  const tried: { ratio: number; weight: number; pairs: number }[] = [];
  for (let ratio = LOWEST; ratio <= HIGHEST; ratio *= STEP) {
    let weight = 0;
    let pairs = 0;
    for (const one of ones) {
      for (const two of twos) {
        const off = Math.abs(two.fHz / one.fHz / ratio - 1);
        if (off >= AGREES) continue;
        weight += (1 - off / AGREES) * 10 ** (Math.min(one.levelDbfs, two.levelDbfs) / 40);
        pairs++;
      }
    }
    tried.push({ ratio, weight, pairs });
  }
  const best = tried.reduce((a, b) => (b.weight > a.weight ? b : a));
  if (best.pairs < LEAST_PAIRS) return null;
  const rival = Math.max(
    0,
    ...tried.filter(({ ratio }) => Math.abs(ratio / best.ratio - 1) > SAME).map(({ weight }) => weight),
  );
  return best.weight > CLEARLY * rival ? best.ratio : null;
}

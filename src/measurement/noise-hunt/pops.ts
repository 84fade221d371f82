// Pops in a take over turn-on or turn-off: short bursts that stand out of what is before and after them.
import type { Recording } from '../../signals/recording.ts';
import { survey } from '../survey.ts';
import { emptyProblem, isClipped, type TakeProblem } from './take-noise.ts';

export interface Pop {
  /** Where it is loudest, from the start of the take, s. */
  atS: number;
  durationS: number;
  /** Loudest 10 ms, dB re a full-scale square. */
  levelDbfs: number;
  /** That over the noise around it, dB. */
  overNoiseDb: number;
}

export interface PopsFound {
  problem: TakeProblem | null;
  pops: Pop[];
  /** The recorder ran out of room: what is louder than it can say reads too low. */
  clipped: boolean;
}

/** Noise around a block is taken from this much to either side, s. */
const AROUND_S = 1;
const LEAST_OVER_DB = 12;
/** What lasts longer is no pop: a door, a fan, a voice. */
const LONGEST_S = 0.4;
const MOST_POPS = 50;

function upperQuartile(values: Float64Array): number {
  return values.slice().sort()[Math.floor(0.75 * values.length)];
}

/**
 * Pops of a take.
 *
 * A pop is a run of 10 ms blocks that stand 12 dB over the upper quartile of the second to either side, at most 0.4 s
 * long. The upper quartile keeps deep noise, which comes and goes by itself, from being taken for pops, and lets a pop
 * fill part of the two seconds.
 *
 * @param channel  counted from 0
 * @returns rising in time, 50 at most
 * Source: own method.
 */
export function foundPops(recording: Recording, channel: number): PopsFound {
  const found = survey(recording, channel);
  const problem = emptyProblem(recording, found);
  if (problem) return { problem, pops: [], clipped: false };
  const { blockPower, blockFrames } = found;
  const blockS = blockFrames / recording.rateHz;
  const reach = Math.round(AROUND_S / blockS);
  const floor = Math.max(recording.stepSize ** 2 / 12, 1e-30);
  const around = Float64Array.from(blockPower, (_, n) => {
    const from = Math.min(Math.max(0, n - reach), Math.max(0, blockPower.length - 2 * reach));
    return Math.max(upperQuartile(blockPower.subarray(from, from + 2 * reach)), floor);
  });
  const over = 10 ** (LEAST_OVER_DB / 10);
  const pops: Pop[] = [];
  for (let n = 0; n < blockPower.length; n++) {
    if (blockPower[n] < over * around[n]) continue;
    let top = n;
    let end = n;
    while (end < blockPower.length && blockPower[end] >= over * around[end]) {
      if (blockPower[end] > blockPower[top]) top = end;
      end++;
    }
    const durationS = (end - n) * blockS;
    if (durationS <= LONGEST_S && pops.length < MOST_POPS) {
      pops.push({
        atS: (top + 0.5) * blockS,
        durationS,
        levelDbfs: 10 * Math.log10(blockPower[top]),
        overNoiseDb: 10 * Math.log10(blockPower[top] / around[top]),
      });
    }
    n = end;
  }
  return { problem: null, pops, clipped: isClipped(found) };
}

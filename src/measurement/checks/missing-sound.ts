// A sweep that falls to the background within a period or two, or rises from it so: no car does that.
import type { SweepShape } from '../../signals/sweep.ts';
import { playedHz } from '../foreign-sound/free-bands.ts';
import { densityBetween, type NoiseDensity } from '../noise-density.ts';
import type { TimedEvent } from '../timeline.ts';
import { zeroFilled } from './clock.ts';
import type { Check, TakeContext } from './take-context.ts';

/** Half a period tells a tone's strength exactly; shorter blocks hold too few samples. */
const SHORTEST_BLOCK_S = 0.001;
/** Power over the background's: sound that is there, and sound that is gone. */
const THERE = 100;
const GONE = 6;
/**
 * Blocks in a row, and least time that sound is gone. The amplitude of a null that the sweep runs through falls in
 * proportion to the distance: where it is gone for 8 ms, it takes 12 ms to come back from there, not one block.
 */
const BLOCKS = 3;
const GONE_S = 0.008;
/** Samples read at a time. */
const PIECE = 1 << 15;
/** A fade and the way to the microphone. */
const BEGINNING_S = 0.05;

/** Sound of a sweep that is missing although no sample is exactly zero. */
export const missingSound: Check = (context) => {
  const background = context.noiseBefore ?? context.noiseAfter;
  if (!background || zeroFilled(context)) return null;
  for (const event of context.events) {
    if (event.segment.kind !== 'sweep') continue;
    const at = edgeOf(levels(context, event, background));
    if (at === null) continue;
    const atS = at / context.recording.rateHz;
    return {
      code: 'zero-fill',
      message: `The sweep drops to the background at once at ${atS.toFixed(2)} s, or comes back from it: a piece of the sound is missing.`,
      mend: 'Record again with other programs closed; switch noise suppression and voice modes off.',
      atS,
    };
  }
  return null;
};

interface BlockLevel {
  start: number;
  /** After the sweep's first sample, s. */
  atS: number;
  /** Power over the background's. */
  ratio: number;
  /** The same at the frequency that plays: a loose part's burst is loud, but not there. */
  toneRatio: number;
}

/** Mean square of the tone in a block. @param turn cycles per sample */
function tonePower(samples: Float64Array, from: number, length: number, turn: number): number {
  const c = Math.cos(2 * Math.PI * turn);
  const s = Math.sin(2 * Math.PI * turn);
  let x = 1;
  let y = 0;
  let re = 0;
  let im = 0;
  for (let n = from; n < from + length; n++) {
    re += samples[n] * x;
    im += samples[n] * y;
    const turned = x * c - y * s;
    y = x * s + y * c;
    x = turned;
  }
  return (2 * (re * re + im * im)) / length ** 2;
}

/** One half period after the other. */
function levels(
  { recording, channel, located }: TakeContext,
  event: TimedEvent,
  background: NoiseDensity,
): BlockLevel[] {
  const shape = event.segment as unknown as SweepShape;
  const rateHz = located.effectiveRateHz;
  const end = Math.min(recording.frames, Math.floor(event.end));
  const piece = new Float64Array(PIECE);
  const whole = (2 * background.sum[background.sum.length - 1] * background.rateHz) / background.size;
  let pieceStart = Number.NEGATIVE_INFINITY;
  const blocks: BlockLevel[] = [];
  for (let start = Math.max(0, Math.ceil(event.start)); start < end; ) {
    const atS = (start - event.start) / rateHz;
    const fHz = playedHz(shape, atS);
    const halfPeriodS = 0.5 / fHz;
    const length = Math.min(
      PIECE,
      end - start,
      Math.max(2, Math.round(Math.max(SHORTEST_BLOCK_S, halfPeriodS) * rateHz)),
    );
    if (start + length > pieceStart + PIECE) {
      recording.readChannel(channel, start, Math.min(PIECE, recording.frames - start), piece);
      pieceStart = start;
    }
    const at = start - pieceStart;
    let power = 0;
    for (let n = at; n < at + length; n++) power += piece[n] * piece[n];
    const steady = (2 * densityBetween(background, fHz / 1.12, fHz * 1.12) * rateHz) / length;
    blocks.push({
      start,
      atS,
      ratio: power / length / Math.max(whole, 1e-30),
      toneRatio: tonePower(piece, at, length, fHz / rateHz) / Math.max(steady, 1e-30),
    });
    start += length;
  }
  return blocks;
}

/** First sample between sound that is there for three blocks and sound that is gone for three and 8 ms; null: none. */
function edgeOf(blocks: readonly BlockLevel[]): number | null {
  const there = (from: number): boolean =>
    from >= 0 &&
    from + BLOCKS <= blocks.length &&
    blocks.slice(from, from + BLOCKS).every(({ ratio, toneRatio }) => Math.min(ratio, toneRatio) > THERE);
  /** Gone from `from` on, one way or the other. */
  const gone = (from: number, step: 1 | -1): boolean => {
    for (let i = from; i >= 0 && i < blocks.length && blocks[i].ratio < GONE; i += step) {
      const goneS = Math.abs(blocks[i].atS - blocks[from].atS);
      if (Math.abs(i - from) >= BLOCKS - 1 && goneS >= GONE_S) return true;
    }
    return false;
  };
  for (let i = 1; i < blocks.length; i++) {
    // Block i may hold the edge itself.
    const falls = there(i - BLOCKS) && gone(i + 1, 1);
    const rises = blocks[i].atS > BEGINNING_S && gone(i - 1, -1) && there(i + 1);
    if (falls || rises) return blocks[i].start;
  }
  return null;
}

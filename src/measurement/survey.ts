// One pass over a channel: its peak, its flat tops, its dead stretches and its loudness over time.
import type { Recording } from '../signals/recording.ts';

export interface FlatTop {
  start: number;
  length: number;
}

export interface Survey {
  peak: number;
  mean: number;
  rms: number;
  /** Runs of at least three samples at the extreme, entered and left more steeply than any wave that turns there. */
  flatTops: FlatTop[];
  /** Runs of one and the same value (nearly always 0) of at least 2 ms. */
  deadRuns: (FlatTop & { value: number })[];
  /** Runs of at least 10 ms of nothing but zero. */
  hushedRuns: FlatTop[];
  /** Mean square of consecutive blocks. */
  blockPower: Float64Array;
  blockFrames: number;
  /** Values that were no numbers (floating-point files). */
  notFinite: number;
}

const BLOCK_S = 0.01;
const CHUNK_FRAMES = 1 << 16;
const DEAD_S = 0.002;
const HUSHED_S = 0.01;
/** 1.5 steps of 16 bits. */
const AT_EXTREME = 1.5 / 32768;
const MOST_LISTED = 4096;

/** Surveys one channel. Long recordings are read in pieces; memory does not grow with them but for 8 bytes per 10 ms. */
export function survey(recording: Recording, channel: number): Survey {
  const { rateHz, frames } = recording;
  const blockFrames = Math.max(1, Math.round(BLOCK_S * rateHz));
  const deadFrames = Math.max(8, Math.round(DEAD_S * rateHz));
  const blockPower = new Float64Array(Math.floor(frames / blockFrames));
  const chunk = new Float64Array(CHUNK_FRAMES);
  const tops = [new TopRuns(), new TopRuns()];
  const deadRuns: Survey['deadRuns'] = [];
  let sum = 0;
  let square = 0;
  let peak = 0;
  let runValue = Number.NaN;
  let runStart = 0;
  const endRun = (at: number): void => {
    if (at - runStart >= deadFrames && deadRuns.length < MOST_LISTED) {
      deadRuns.push({ start: runStart, length: at - runStart, value: runValue });
    }
  };
  const hushedFrames = Math.round(HUSHED_S * rateHz);
  const hushedRuns: FlatTop[] = [];
  let hushStart = 0;
  const endHush = (at: number): void => {
    if (at - hushStart >= hushedFrames && hushedRuns.length < MOST_LISTED) {
      hushedRuns.push({ start: hushStart, length: at - hushStart });
    }
  };
  let block = 0;
  let blockSum = 0;
  for (let start = 0; start < frames; start += CHUNK_FRAMES) {
    const length = Math.min(CHUNK_FRAMES, frames - start);
    recording.readChannel(channel, start, length, chunk);
    for (let i = 0; i < length; i++) {
      const x = chunk[i];
      sum += x;
      const power = x * x;
      square += power;
      const size = x < 0 ? -x : x;
      if (size > peak) peak = size;
      if (x !== 0) {
        endHush(start + i);
        hushStart = start + i + 1;
      }
      if (x !== runValue) {
        endRun(start + i);
        runValue = x;
        runStart = start + i;
      }
      tops[0].take(x, start + i);
      tops[1].take(-x, start + i);
      blockSum += power;
      if (++block === blockFrames) {
        const index = Math.floor((start + i) / blockFrames);
        if (index < blockPower.length) blockPower[index] = blockSum / blockFrames;
        block = 0;
        blockSum = 0;
      }
    }
  }
  endRun(frames);
  endHush(frames);
  const highest = Math.max(tops[0].extreme, tops[1].extreme);
  const flatTops = tops
    .flatMap((side) => (side.extreme > 0.9 * highest ? side.runs : []))
    .sort((a, b) => a.start - b.start);
  let notFinite = 0;
  if (recording.notFinite) notFinite = recording.notFinite(channel, 0, frames);
  return {
    peak,
    mean: frames > 0 ? sum / frames : 0,
    rms: frames > 0 ? Math.sqrt(square / frames) : 0,
    flatTops,
    deadRuns,
    hushedRuns,
    blockPower,
    blockFrames,
    notFinite,
  };
}

/** Collects runs at the largest value seen so far; a clearly larger value starts afresh. */
class TopRuns {
  extreme = 0;
  runs: FlatTop[] = [];
  private start = -1;
  private before = 0;
  private previous = 0;

  take(x: number, at: number): void {
    if (x > this.extreme + AT_EXTREME) {
      this.runs = [];
      this.extreme = x;
      this.start = at;
      this.before = this.previous;
    } else if (x >= this.extreme - AT_EXTREME && x > 0) {
      if (x > this.extreme) this.extreme = x;
      if (this.start < 0) {
        this.start = at;
        this.before = this.previous;
      }
    } else if (this.start >= 0) {
      const length = at - this.start;
      // A wave that turns at its top leaves it along a parabola; a limited one arrives and leaves at full slope.
      const smooth = AT_EXTREME * ((length + 2) / length) ** 2;
      const drop = this.extreme - 0.5 * (this.before + x);
      if (length >= 3 && drop > 4 * smooth && this.runs.length < MOST_LISTED) {
        this.runs.push({ start: this.start, length });
      }
      this.start = -1;
    }
    this.previous = x;
  }
}

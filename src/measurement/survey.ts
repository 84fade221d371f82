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
  const chunk = new Float64Array(blockFrames * Math.ceil(CHUNK_FRAMES / blockFrames));
  const blockPower = new Float64Array(Math.floor(frames / blockFrames));
  const tops = new TopRuns(1);
  const bottoms = new TopRuns(-1);
  const still = new StillRuns(Math.max(8, Math.round(DEAD_S * rateHz)), Math.round(HUSHED_S * rateHz));
  const moments: Moments = { sum: 0, square: 0, most: 0, least: 0 };
  let sum = 0;
  let square = 0;
  let most = 0;
  let least = 0;
  for (let start = 0; start < frames; start += chunk.length) {
    const length = Math.min(chunk.length, frames - start);
    recording.readChannel(channel, start, length, chunk);
    for (let from = 0; from < length; from += blockFrames) {
      const to = Math.min(length, from + blockFrames);
      takeMoments(chunk, from, to, moments);
      sum += moments.sum;
      square += moments.square;
      most = Math.max(most, moments.most);
      least = Math.min(least, moments.least);
      still.take(chunk, from, to, start);
      tops.take(chunk, from, to, start, moments.most);
      bottoms.take(chunk, from, to, start, -moments.least);
      const block = Math.floor((start + from) / blockFrames);
      if (block < blockPower.length) blockPower[block] = moments.square / blockFrames;
    }
  }
  still.end(frames);
  const highest = Math.max(tops.extreme, bottoms.extreme);
  const flatTops = [tops, bottoms]
    .flatMap((side) => (side.extreme > 0.9 * highest ? side.runs : []))
    .sort((a, b) => a.start - b.start);
  let notFinite = 0;
  if (recording.notFinite) notFinite = recording.notFinite(channel, 0, frames);
  return {
    peak: Math.max(most, -least),
    mean: frames > 0 ? sum / frames : 0,
    rms: frames > 0 ? Math.sqrt(square / frames) : 0,
    flatTops,
    deadRuns: still.deadRuns,
    hushedRuns: still.hushedRuns,
    blockPower,
    blockFrames,
    notFinite,
  };
}

interface Moments {
  sum: number;
  square: number;
  most: number;
  least: number;
}

function takeMoments(samples: Float64Array, from: number, to: number, into: Moments): void {
  let sum = 0;
  let square = 0;
  let most = 0;
  let least = 0;
  for (let i = from; i < to; i++) {
    const x = samples[i];
    sum += x;
    square += x * x;
    if (x > most) most = x;
    if (x < least) least = x;
  }
  into.sum = sum;
  into.square = square;
  into.most = most;
  into.least = least;
}

/** Collects runs of one and the same value. */
class StillRuns {
  deadRuns: Survey['deadRuns'] = [];
  hushedRuns: FlatTop[] = [];
  private value = Number.NaN;
  private start = 0;
  private readonly deadFrames: number;
  private readonly hushedFrames: number;

  constructor(deadFrames: number, hushedFrames: number) {
    this.deadFrames = deadFrames;
    this.hushedFrames = hushedFrames;
  }

  /** Samples `from` .. `to - 1` of a piece whose first one is sample `pieceStart` of the recording. */
  take(samples: Float64Array, from: number, to: number, pieceStart: number): void {
    let { value, start } = this;
    for (let i = from; i < to; i++) {
      const x = samples[i];
      if (x === value) continue;
      const at = pieceStart + i;
      if (at - start >= this.deadFrames) this.note(start, at - start, value);
      value = x;
      start = at;
    }
    this.value = value;
    this.start = start;
  }

  end(frames: number): void {
    if (frames - this.start >= this.deadFrames) this.note(this.start, frames - this.start, this.value);
  }

  private note(start: number, length: number, value: number): void {
    if (this.deadRuns.length < MOST_LISTED) this.deadRuns.push({ start, length, value });
    if (value === 0 && length >= this.hushedFrames && this.hushedRuns.length < MOST_LISTED) {
      this.hushedRuns.push({ start, length });
    }
  }
}

/** Collects runs at the largest value seen so far on one side; a clearly larger value starts afresh. */
class TopRuns {
  extreme = 0;
  runs: FlatTop[] = [];
  private start = -1;
  private before = 0;
  private previous = 0;
  private readonly sign: 1 | -1;

  constructor(sign: 1 | -1) {
    this.sign = sign;
  }

  /** @param most  the largest value among them on this side: most pieces hold nothing near the top and are passed over */
  take(samples: Float64Array, from: number, to: number, pieceStart: number, most: number): void {
    if (this.start >= 0 || most >= this.extreme - AT_EXTREME) {
      for (let i = from; i < to; i++) this.takeOne(this.sign * samples[i], pieceStart + i);
    } else if (to > from) this.previous = this.sign * samples[to - 1];
  }

  private takeOne(x: number, at: number): void {
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

// Where the sweeps of a track fall in a recording that has no markers to tell.
import { powerOfTwoFrom, realFft, type Spectrum } from '../signals/fft.ts';
import type { Recording } from '../signals/recording.ts';
import { exponentialSweep } from '../signals/sweep.ts';
import type { SweepSegment } from '../signals/track.ts';
import { bandGrid, bandSignal } from './band-envelope.ts';

export interface SweepPlace {
  /** Recorder sample at which the track's first sample would fall. */
  offset: number;
  /** Height of the compressed sweeps over the median of what surrounds them, least of all sweeps. */
  clearness: number;
  /** The same for each sweep. */
  each: number[];
}

const CELL_S = 0.001;
/** Pure noise reaches 5, music 8. */
const LEAST_CLEARNESS = 12;
const SLACK_S = 0.004;
const SLACK_SHARE = 0.003;

/**
 * The place of all sweeps together, or null.
 *
 * Each distinct sweep is compressed to a pulse by a filter that whitens it (conjugate phase, unit magnitude), the pulses
 * of all sweeps are lined up as the track has them, and the highest sum is taken.
 *
 * Source: matched filter with phase transform, after C. H. Knapp, G. C. Carter 1976.
 */
export function placeOfSweeps(
  recording: Recording,
  channel: number,
  sweeps: SweepSegment[],
  trackRateHz: number,
  effectiveRateHz: number,
  onProgress: (share: number) => void = () => {},
): SweepPlace | null {
  const longestS = Math.max(...sweeps.map(({ durationS }) => durationS));
  const highestHz = Math.max(...sweeps.map(({ toHz }) => toHz));
  const large = powerOfTwoFrom(MARGIN * longestS * effectiveRateHz) > ROOMY_SIZE;
  if (large && highestHz < (USABLE_SHARE * effectiveRateHz) / 2) {
    const place = placeOfSweeps(halfRate(recording), channel, sweeps, trackRateHz, effectiveRateHz / 2, onProgress);
    return place && { ...place, offset: 2 * place.offset + 0.5 };
  }
  const shapes: SweepSegment[] = [];
  const shapeOf = sweeps.map((sweep) => {
    const same = shapes.findIndex(
      (s) => s.fromHz === sweep.fromHz && s.toHz === sweep.toHz && s.durationS === sweep.durationS,
    );
    return same >= 0 ? same : shapes.push(sweep) - 1;
  });
  const envelopes = shapes.map((shape, i) =>
    compressed(recording, channel, shape, trackRateHz, effectiveRateHz, (share) =>
      onProgress((i + share) / shapes.length),
    ),
  );
  const startsS = sweeps.map((sweep) => Math.round(sweep.startS * trackRateHz) / trackRateHz);
  let best: SweepPlace | null = null;
  for (let i = 0; i < sweeps.length; i++) {
    const envelope = envelopes[shapeOf[i]];
    for (const cell of highestCells(envelope.cells, 6)) {
      const offset = envelope.positions[cell] - startsS[i] * effectiveRateHz;
      const each = sweeps.map((_, j) => {
        const other = envelopes[shapeOf[j]];
        const slackS = SLACK_S + SLACK_SHARE * Math.abs(startsS[j] - startsS[i]);
        const centre = (offset + startsS[j] * effectiveRateHz - other.first) / other.cellFrames;
        const reach = Math.ceil((slackS * effectiveRateHz) / other.cellFrames);
        let most = 0;
        for (let c = Math.max(0, Math.floor(centre) - reach); c <= centre + reach && c < other.cells.length; c++) {
          most = Math.max(most, other.cells[c]);
        }
        return most / other.median;
      });
      const clearness = Math.min(...each);
      if (!best || clearness > best.clearness) best = { offset, clearness, each };
    }
  }
  return best && best.clearness >= LEAST_CLEARNESS ? best : null;
}

/** The recording at half its rate, pairs of samples averaged: for finding places, where what folds down is noise. */
function halfRate(recording: Recording): Recording {
  const pairs = new Float64Array(2 * PIECE);
  return {
    ...recording,
    rateHz: recording.rateHz / 2,
    frames: Math.floor(recording.frames / 2),
    readChannel(channel, start, length, into) {
      for (let done = 0; done < length; done += PIECE) {
        const count = Math.min(PIECE, length - done);
        recording.readChannel(channel, 2 * (start + done), 2 * count, pairs);
        for (let n = 0; n < count; n++) into[done + n] = 0.5 * (pairs[2 * n] + pairs[2 * n + 1]);
      }
    },
  };
}

interface Compressed {
  cells: Float64Array;
  /** Recorder sample of the largest value in each cell. */
  positions: Float64Array;
  cellFrames: number;
  first: number;
  median: number;
}

const PIECE = 1 << 15;
/** Transform over sweep: enough to move on by a quarter of the sweep at a time. */
const MARGIN = 1.25;
/** Share of a rate up to which its samples are trusted. */
const USABLE_SHARE = 0.45;

/**
 * Transforms up to this length take twice the sweep and give the envelope at every sample. For longer ones memory counts:
 * they take a quarter more than the sweep, and the envelope on the coarsest grid that carries it.
 */
const ROOMY_SIZE = 1 << 21;

/** Largest envelope of the compressed recording in each millisecond. */
function compressed(
  recording: Recording,
  channel: number,
  shape: SweepSegment,
  trackRateHz: number,
  effectiveRateHz: number,
  onProgress: (share: number) => void,
): Compressed {
  const toHz = Math.min(shape.toHz, USABLE_SHARE * effectiveRateHz);
  const sweep = exponentialSweep(shape, effectiveRateHz, { trackRateHz });
  const roomy = powerOfTwoFrom(2 * sweep.length);
  const size = roomy <= ROOMY_SIZE ? roomy : powerOfTwoFrom(MARGIN * sweep.length);
  const lowBin = Math.max(1, Math.ceil((shape.fromHz * size) / effectiveRateHz));
  const highBin = Math.min(size / 2 - 1, Math.floor((toHz * size) / effectiveRateHz));
  const cellFrames = Math.max(1, Math.round(CELL_S * effectiveRateHz));
  const first = -Math.round(0.5 * effectiveRateHz);
  const count = Math.max(1, Math.ceil((recording.frames - first) / cellFrames));
  const found: Compressed = {
    cells: new Float64Array(count),
    positions: new Float64Array(count),
    cellFrames,
    first,
    median: 0,
  };
  const template = unitPhase(realFft(sweep, size), lowBin, highBin);
  const grid = size <= ROOMY_SIZE ? { size, lowBin, highBin, points: size, step: 1 } : bandGrid(size, lowBin, highBin);
  const hopPoints = Math.floor((size - sweep.length) / grid.step);
  const block = new Float64Array(size);
  const spectrum = { re: new Float64Array(size / 2 + 1), im: new Float64Array(size / 2 + 1) };
  const work = new Float64Array(2 * grid.points);
  for (let start = first; start < recording.frames; start += hopPoints * grid.step) {
    onProgress(Math.max(0, start) / recording.frames);
    recording.readChannel(channel, start, size, block);
    realFft(block, size, spectrum);
    fillCells(bandSignal(grid, spectrum, template, work), grid.step, start, hopPoints, found);
  }
  const { cells } = found;
  for (let c = 0; c < count; c++) cells[c] = Math.sqrt(cells[c]);
  const sorted = cells.slice().sort();
  found.median = sorted[count >> 1] || Math.max(sorted[count - 1] * 1e-9, 1e-30);
  return found;
}

/** The spectrum with all its magnitudes made 1 within the band; changed in place. */
function unitPhase(spectrum: Spectrum, lowBin: number, highBin: number): Spectrum {
  const { re, im } = spectrum;
  for (let k = lowBin; k <= highBin; k++) {
    const scale = 1 / (Math.hypot(re[k], im[k]) || 1);
    re[k] *= scale;
    im[k] *= scale;
  }
  return spectrum;
}

/** Largest squared envelope of each cell that the first `count` points of a block, `step` samples apart, reach into. */
function fillCells(pairs: Float64Array, step: number, start: number, count: number, found: Compressed): void {
  const { cells, positions, cellFrames, first } = found;
  for (let m = 0; m < count; ) {
    const cell = Math.floor((start + m * step - first) / cellFrames);
    if (cell >= cells.length) return;
    const next = Math.min(count, Math.ceil((first + (cell + 1) * cellFrames - start) / step));
    let most = cells[cell];
    for (; m < next; m++) {
      const value = pairs[2 * m] * pairs[2 * m] + pairs[2 * m + 1] * pairs[2 * m + 1];
      if (value <= most) continue;
      most = value;
      positions[cell] = start + m * step;
    }
    cells[cell] = most;
  }
}

function highestCells(cells: Float64Array, count: number): number[] {
  const found: number[] = [];
  for (let round = 0; round < count; round++) {
    let best = -1;
    for (let c = 0; c < cells.length; c++) {
      if ((best < 0 || cells[c] > cells[best]) && !found.some((f) => Math.abs(f - c) < 50)) best = c;
    }
    if (best < 0) break;
    found.push(best);
  }
  return found;
}

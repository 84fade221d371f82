// A recording as power density over short frames and third octaves.
import { powerOfTwoFrom, realFft, type Spectrum } from '../../signals/fft.ts';
import type { Recording } from '../../signals/recording.ts';
import { hannWindow, windowAboutMean } from '../noise-density.ts';

const SHORTEST_FRAME_S = 0.05;
const LOWEST_HZ = 40;
/** Share of the rate up to which the recorder's converter is trusted. */
const USABLE_SHARE = 0.45;
const LEAST_BINS = 3;

export interface Band {
  lowHz: number;
  highHz: number;
  /** Bins of one frame that it holds. */
  bins: number;
}

/** How frames of one recording are cut. */
export interface FrameShape {
  /** Samples of a frame; frames overlap by half. */
  size: number;
  rateHz: number;
  bands: Band[];
}

export interface BandFrame {
  /** First sample. */
  start: number;
  /** Two-sided density per band, (full scale)^2 per Hz. */
  density: Float64Array;
}

/** Frames of 50 ms to 100 ms and bands of a third octave, three bins wide at least. */
export function frameShape(rateHz: number): FrameShape {
  const size = powerOfTwoFrom(SHORTEST_FRAME_S * rateHz);
  const binHz = rateHz / size;
  const bands: Band[] = [];
  let low = Math.ceil(LOWEST_HZ / binHz);
  while (low * binHz < USABLE_SHARE * rateHz) {
    const high = Math.max(low + LEAST_BINS, Math.round(low * 2 ** (1 / 3)));
    bands.push({ lowHz: (low - 0.5) * binHz, highHz: (high - 0.5) * binHz, bins: high - low });
    low = high;
  }
  return { size, rateHz, bands };
}

/**
 * Frames of a stretch of a recording, with a Hann window, about their mean.
 *
 * @param from,to  samples; frames lie wholly between
 */
export function bandFrames(
  recording: Recording,
  channel: number,
  { size, rateHz, bands }: FrameShape,
  from: number,
  to: number,
): BandFrame[] {
  const window = hannWindow(size);
  const block = new Float64Array(size);
  const spectrum = { re: new Float64Array(size / 2 + 1), im: new Float64Array(size / 2 + 1) };
  const frames: BandFrame[] = [];
  for (let start = Math.max(0, Math.ceil(from)); start + size <= Math.min(recording.frames, to); start += size / 2) {
    recording.readChannel(channel, start, size, block);
    windowAboutMean(block, window);
    frames.push({
      start,
      density: densityOf(realFft(block, size, spectrum), bands, rateHz / size, 0.375 * size * rateHz),
    });
  }
  return frames;
}

/** @param power  of the window, times the rate */
function densityOf({ re, im }: Spectrum, bands: readonly Band[], binHz: number, power: number): Float64Array {
  const density = new Float64Array(bands.length);
  for (let b = 0; b < bands.length; b++) {
    const first = Math.round(bands[b].lowHz / binHz + 0.5);
    const { bins } = bands[b];
    let sum = 0;
    for (let k = first; k < first + bins; k++) sum += re[k] * re[k] + im[k] * im[k];
    density[b] = sum / (bins * power);
  }
  return density;
}

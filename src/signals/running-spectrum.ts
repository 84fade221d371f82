// The running spectrum: band levels of a signal as it arrives, block by block, for a live display or a long average.
import { assertRange } from '../base/assert.ts';
import { type BandShare, bandPower, bandShares, type OctaveBand, octaveBands } from './bands.ts';
import { type PowerSpectrum, powerSpectrum } from './power-spectrum.ts';
import { type Weighting, weightingPower } from './weighting.ts';

/** What a running spectrum shows and how it averages. */
export interface RunningSpectrumSetup {
  rateHz: number;
  /** 1 octaves, 3 third octaves ... */
  fraction: number;
  /** Bands whose exact centre lies between; toHz below 0.45 rateHz. */
  fromHz: number;
  toHz: number;
  /** "linear": mean since reset. Otherwise the time constant of an exponential average, s: 0.125 fast, 1 slow. */
  average: 'linear' | number;
  weighting?: Weighting | undefined;
  /** Samples in the period of a periodic signal, a power of two: analysed whole, without window, without random error. */
  periodSamples?: number | undefined;
}

/** A running spectrum; see `runningSpectrum`. */
export interface RunningSpectrum {
  readonly bands: readonly OctaveBand[];
  /** Mean square per band (full-scale square = 1), 0 before its first window; the same array always, kept up to date. */
  readonly bandPower: Float64Array;
  /** Windows averaged so far per band; 0 says the band has no reading yet. */
  readonly windows: Int32Array;
  /** Samples fed that were no numbers or beyond a million full scales; they counted as 0. */
  readonly unusableSamples: number;
  /** Takes the next samples, any number of them; true if a band changed. Allocates nothing. */
  feed(block: ArrayLike<number>): boolean;
  /** Levels into `out`, dB re full-scale square, not below `floorDb`; a full-scale sine reads -3.01. Allocates nothing. */
  levelsDbInto(out: Float64Array | Float32Array, floorDb: number): void;
  reset(): void;
}

/** Overlapping windows of one length and the bands read from them. */
interface Resolution {
  readonly spectrum: PowerSpectrum;
  readonly hop: number;
  readonly bandIndices: Int32Array;
  readonly shares: readonly BandShare[];
  /** Power factor of each bin; null for none. */
  readonly weights: Float64Array | null;
  readonly alpha: number;
  due: number;
  windows: number;
}

/** Window lengths, s, longest first: each holds four bins of the bands that the next one no longer can. */
const WINDOW_SECONDS = [0.68, 0.17, 0.042];
const BINS_PER_BAND = 4;

function powerOfTwoNear(samples: number): number {
  return Math.min(1048576, Math.max(64, 2 ** Math.round(Math.log2(samples))));
}

function windowSizes(setup: RunningSpectrumSetup): number[] {
  if (setup.periodSamples !== undefined) return [setup.periodSamples];
  return [...new Set(WINDOW_SECONDS.map((seconds) => powerOfTwoNear(seconds * setup.rateHz)))];
}

/** Each band goes to the shortest window that still gives it four bins, so treble moves quickly and bass is resolved. */
function resolutions(setup: RunningSpectrumSetup, bands: readonly OctaveBand[]): Resolution[] {
  const { rateHz, average, weighting = 'Z', periodSamples } = setup;
  const sizes = windowSizes(setup);
  const chosen = bands.map(({ lowHz, highHz }) => {
    for (let i = sizes.length - 1; i > 0; i--) if (highHz - lowHz >= (BINS_PER_BAND * rateHz) / sizes[i]) return i;
    return 0;
  });
  const made: Resolution[] = [];
  sizes.forEach((size, i) => {
    const bandIndices = Int32Array.from(bands.keys()).filter((b) => chosen[b] === i);
    if (bandIndices.length === 0) return;
    const binHz = rateHz / size;
    const bins = size / 2 + 1;
    const hop = periodSamples === undefined ? size / 2 : size;
    made.push({
      spectrum: powerSpectrum(size, periodSamples === undefined ? 'hann' : 'none'),
      hop,
      bandIndices,
      shares: bandShares(
        Array.from(bandIndices, (b) => bands[b]),
        binHz,
        bins,
      ),
      weights:
        weighting === 'Z' ? null : Float64Array.from({ length: bins }, (_, k) => weightingPower(weighting, k * binHz)),
      alpha: average === 'linear' ? 0 : 1 - Math.exp(-hop / rateHz / average),
      due: size,
      windows: 0,
    });
  });
  return made;
}

/**
 * Band levels of a signal fed block by block.
 *
 * Hann windows, half overlapped, powers averaged: equally since reset, or exponentially with alpha = 1 - exp(-hop / tau).
 * The exponential average starts as an equal one and turns exponential once its memory is full, so it has no run-up from
 * silence. Bands are read from windows of about 0.7, 0.17 and 0.04 s, each from the shortest with four bins in the band.
 *
 * @param setup  rateHz 8 000 .. 384 000; fraction 1 .. 24; 1 <= fromHz <= toHz <= 0.45 rateHz; a time constant
 *   0.01 .. 3600 s; periodSamples a power of two 1 024 .. 1 048 576
 * @returns all memory is taken now; feeding takes none
 * @throws RangeError  a setup outside its range, or one without a single band
 * Accuracy: random error of a band of B Hz averaged over T s 4.34 / sqrt(B T) dB (standard deviation, Gaussian noise);
 *   none for a periodic signal with its period given. A weighting reads a tone at the foot of its slope up to 0.2 dB
 *   high, because the window spreads the tone over bins of different weight. Narrow bands below the first four-bin
 *   band share power with their neighbours.
 * Source: P. D. Welch, IEEE Trans. Audio Electroacoust. 15(2), 1967, 70-73; time constants of IEC 61672-1:2013, 5.8.
 * @example
 *   const spectrum = runningSpectrum({ rateHz: 48000, fraction: 3, fromHz: 20, toHz: 20000, average: 0.125 });
 *   spectrum.feed(block); // a full-scale sine of 1 kHz comes to 0.5 in the band around 1 kHz
 */
export function runningSpectrum(setup: RunningSpectrumSetup): RunningSpectrum {
  const { rateHz, fraction, fromHz, toHz, average, periodSamples } = setup;
  assertRange('rateHz', rateHz, 8000, 384000);
  assertRange('fraction', fraction, 1, 24);
  assertRange('toHz', toHz, 1, 0.45 * rateHz);
  assertRange('fromHz', fromHz, 1, toHz);
  if (average !== 'linear') assertRange('average', average, 0.01, 3600);
  if (periodSamples !== undefined) assertRange('periodSamples', periodSamples, 1024, 1048576);
  const bands = octaveBands(fraction, fromHz, toHz);
  if (bands.length === 0) throw new RangeError(`no band of 1/${fraction} octave is centred in ${fromHz}..${toHz} Hz`);
  const parts = resolutions(setup, bands);
  const ring = new Float64Array(Math.max(...parts.map((part) => part.spectrum.size)));
  const bandPowers = new Float64Array(bands.length);
  const windows = new Int32Array(bands.length);
  let fed = 0;
  let unusable = 0;

  function readPart(part: Resolution): void {
    part.spectrum.analyse(ring, fed);
    const { binPower } = part.spectrum;
    const { weights } = part;
    if (weights) for (let k = 0; k < binPower.length; k++) binPower[k] *= weights[k];
    part.windows++;
    part.due += part.hop;
    const gain = Math.max(part.alpha, 1 / part.windows);
    for (let i = 0; i < part.bandIndices.length; i++) {
      const b = part.bandIndices[i];
      bandPowers[b] += gain * (bandPower(binPower, part.shares[i]) - bandPowers[b]);
      windows[b] = part.windows;
    }
  }

  return {
    bands,
    bandPower: bandPowers,
    windows,
    get unusableSamples() {
      return unusable;
    },
    feed(block) {
      let changed = false;
      let at = 0;
      while (at < block.length) {
        // Copy up to the next window's end, however the blocks are cut.
        let until = block.length - at;
        for (let p = 0; p < parts.length; p++) until = Math.min(until, parts[p].due - fed);
        let place = fed % ring.length;
        for (let n = 0; n < until; n++) {
          const value = block[at + n];
          // One bad sample would stay in an average for ever; beyond a million full scales is bad too.
          const usable = Math.abs(value) <= 1e6;
          if (!usable) unusable++;
          ring[place] = usable ? value : 0;
          place = place + 1 === ring.length ? 0 : place + 1;
        }
        at += until;
        fed += until;
        for (let p = 0; p < parts.length; p++) {
          if (parts[p].due !== fed) continue;
          readPart(parts[p]);
          changed = true;
        }
      }
      return changed;
    },
    levelsDbInto(out, floorDb) {
      if (out.length !== bands.length) throw new RangeError(`out must hold ${bands.length} levels, got ${out.length}`);
      assertRange('floorDb', floorDb, -400, 0);
      for (let b = 0; b < out.length; b++) out[b] = Math.max(floorDb, 10 * Math.log10(Math.max(1e-40, bandPowers[b])));
    },
    reset() {
      ring.fill(0);
      bandPowers.fill(0);
      windows.fill(0);
      fed = 0;
      unusable = 0;
      for (const part of parts) {
        part.due = part.spectrum.size;
        part.windows = 0;
      }
    },
  };
}

// How the sound of a driver behind a crossover begins: impulse responses of the usual filters about a measured band.
import { inverseRealFft } from '../../signals/fft.ts';
import { analogCrossoverResponse } from '../../signals/filters/crossover.ts';
import type { Crossover } from '../../signals/filters/prototype.ts';
import type { ComplexResponse } from '../../signals/filters/sections.ts';

export interface OnsetModel {
  /** Impulse response; it begins at index `lead`, and what the limited band spreads ahead of that stands before. */
  samples: Float64Array;
  /** Whether an all-pass stands in it that no plan tells of. */
  allPass: boolean;
}

/** A pass band as measured, Hz: where the response lies 6 dB under the middle; an end that was not reached is open. */
export interface OnsetBand {
  low: number;
  high: number;
  openHigh: boolean;
}

export interface OnsetQuestion {
  band: OnsetBand;
  /** Gain that the sound was limited by, over frequency; without phase. */
  limit: (fHz: number) => number;
  rateHz: number;
  /** Samples ahead of the onset, and in all. */
  lead: number;
  length: number;
  /** Whether onsets with an all-pass are wanted too. */
  allPasses: boolean;
}

/** Falls as a crossover or a driver in its box makes them. */
const FALLS = [
  { family: 'linkwitz-riley', order: 4 },
  { family: 'linkwitz-riley', order: 2 },
  { family: 'butterworth', order: 3 },
] as const;
/** Corners re the measured ends of the band: cabin, box and reflections move those. */
const LOW_SHARES = [1, 0.7, 0.85, 1.2];
const HIGH_SHARES = [1, 0.8, 1.25];
/** Where the fall begins beyond what was measured. */
const OPEN_HIGH_SHARES = [1, 1.4];
/** Places of an all-pass, share of the band in octaves, and its Q. */
const ALL_PASS_PLACES = [0.15, 0.3, 0.45, 0.6, 0.75, 0.9];
const ALL_PASS_QS = [0.5, 1];
/** Periods of the low corner in which a model dies away, to a part in a thousand. */
const PERIODS = 2;

/**
 * Every model for a band: high- and low-passes of three families about its ends, the usual one first, and that with all-passes.
 *
 * Source: analog prototypes as in `analogCrossoverResponse`; all-pass (1 - s/(q w) + s^2/w^2) / (1 + s/(q w) + s^2/w^2).
 */
export function onsetModels({ band, limit, rateHz, lead, length, allPasses }: OnsetQuestion): OnsetModel[] {
  let size = 64;
  while (size < Math.max(2 * length, (PERIODS * rateHz) / band.low) && size < 8192) size *= 2;
  const fHz = Float64Array.from({ length: size / 2 + 1 }, (_, k) => (k * rateHz) / size);
  const heard = Float64Array.from(fHz, limit);
  const highPasses = falls(band.low, LOW_SHARES, 'high-pass', fHz);
  const lowPasses = band.openHigh
    ? [OPEN, ...falls(band.high, OPEN_HIGH_SHARES, 'low-pass', fHz)]
    : falls(band.high, HIGH_SHARES, 'low-pass', fHz);
  const turns = allPasses
    ? ALL_PASS_PLACES.flatMap((place) =>
        ALL_PASS_QS.map((q) => allPassResponse(band.low * (band.high / band.low) ** place, q, fHz)),
      )
    : [];
  const re = new Float64Array(heard.length);
  const im = new Float64Array(heard.length);
  const onset = (...responses: (ComplexResponse | null)[]): Float64Array => {
    re.set(heard);
    im.fill(0);
    for (const response of responses) if (response) multiply(re, im, response);
    const samples = inverseRealFft(re, im, size);
    const cut = new Float64Array(length);
    for (let n = 0; n < length; n++) cut[n] = samples[(n - lead + size) % size];
    return cut;
  };
  const models: OnsetModel[] = [];
  for (const { family, response: highPass } of highPasses) {
    for (const { usual, response: lowPass } of lowPasses) {
      models.push({ samples: onset(highPass, lowPass), allPass: false });
      if (family !== 0 || !usual) continue;
      for (const turn of turns) models.push({ samples: onset(highPass, lowPass, turn), allPass: true });
    }
  }
  return models;
}

interface Fall {
  /** Index in `FALLS`. */
  family: number;
  /** Of the first family, at the end as measured. */
  usual: boolean;
  /** Null: lets all through. */
  response: ComplexResponse | null;
}

const OPEN: Fall = { family: 0, usual: true, response: null };

function falls(cornerHz: number, shares: number[], kind: 'high-pass' | 'low-pass', fHz: Float64Array): Fall[] {
  return FALLS.flatMap((fall, family) =>
    shares.map((share, n) => {
      const crossover: Crossover = { ...fall, fHz: cornerHz * share };
      return { family, usual: family + n === 0, response: analogCrossoverResponse(crossover, kind, fHz) };
    }),
  );
}

function multiply(re: Float64Array, im: Float64Array, by: ComplexResponse): void {
  for (let k = 0; k < re.length; k++) {
    const real = re[k] * by.re[k] - im[k] * by.im[k];
    im[k] = re[k] * by.im[k] + im[k] * by.re[k];
    re[k] = real;
  }
}

/** Second-order all-pass: its phase turns once round, half of it at `cornerHz`. */
function allPassResponse(cornerHz: number, q: number, fHz: Float64Array): ComplexResponse {
  const re = new Float64Array(fHz.length);
  const im = new Float64Array(fHz.length);
  for (let k = 0; k < fHz.length; k++) {
    const x = fHz[k] / cornerHz;
    const real = 1 - x * x;
    const imaginary = x / q;
    const size = real * real + imaginary * imaginary;
    re[k] = (real * real - imaginary * imaginary) / size;
    im[k] = (-2 * real * imaginary) / size;
  }
  return { re, im };
}

// One take of noise: whether it can be used, how loud it is, its hiss by octave, and the tones in it.

import { bandPowers, octaveBands } from '../../signals/bands.ts';
import type { Recording } from '../../signals/recording.ts';
import { weightingPower } from '../../signals/weighting.ts';
import { type Survey, survey } from '../survey.ts';
import { aWeightedDbfs, type ToneAudibility, toneAudibility } from './noise-levels.ts';
import { type FoundTone, foundTones, type NoiseSpectrum, noiseSpectrum } from './tone-search.ts';

/** Why a take says nothing. */
export interface TakeProblem {
  code: 'too-short' | 'silent' | 'clipped' | 'gated' | 'too-quiet';
  message: string;
  mend: string;
}

export type HeardTone = FoundTone & ToneAudibility;

/** Levels in dB re a full-scale square. */
export interface TakeNoise {
  durationS: number;
  /** Null where the take can be used. */
  problem: TakeProblem | null;
  aWeightedDbfs: number | null;
  /** A-weighted, the tones taken out. */
  hissDbfs: number | null;
  /** By octave, the tones taken out. */
  octaves: { fHz: number; levelDbfs: number }[];
  tones: HeardTone[];
  spectrum: NoiseSpectrum | null;
}

export const LEAST_TAKE_S = 4;
const NEAR_FULL_SCALE = 0.985;
const LEAST_FLAT_TOPS = 3;
const GATED_SHARE = 0.05;
/** Bins to either side that a tone fills, with half a bin to spare. */
const TONE_BINS = 5;
const BESIDE_BINS = 6;
const OCTAVES_HZ = { from: 125, to: 16_000 };

/** Flat tops at full scale: the recorder ran out of room. */
export const isClipped = ({ peak, flatTops }: Pick<Survey, 'peak' | 'flatTops'>): boolean =>
  peak >= NEAR_FULL_SCALE && flatTops.length >= LEAST_FLAT_TOPS;

/** What forbids to use a take at all: too short, or nothing in it. */
export function emptyProblem(recording: Recording, found: Survey): TakeProblem | null {
  const durationS = recording.frames / recording.rateHz;
  if (durationS < LEAST_TAKE_S) {
    return {
      code: 'too-short',
      message: `The take lasts ${durationS.toFixed(1)} s; ${LEAST_TAKE_S} s are needed to tell a tone from noise.`,
      mend: 'Record again, at least 5 s, with revs and level held still.',
    };
  }
  if (found.peak > 0) return null;
  return {
    code: 'silent',
    message: 'The take holds nothing but zeros.',
    mend: 'Check the recorder’s input and its plug, or choose the other input of the file.',
  };
}

function problemOf(recording: Recording, found: Survey): TakeProblem | null {
  const empty = emptyProblem(recording, found);
  if (empty) return empty;
  if (isClipped(found)) {
    const atS = (found.flatTops[0].start / recording.rateHz).toFixed(2);
    return {
      code: 'clipped',
      message: `The take is clipped, first at ${atS} s: flat tops make tones of their own.`,
      mend: 'Turn the recording level down by 10 dB and record all takes again at that level.',
    };
  }
  const hushed = found.hushedRuns.reduce((sum, { length }) => sum + length, 0);
  if (hushed > GATED_SHARE * recording.frames) {
    return {
      code: 'gated',
      message: `The recorder cut ${Math.round((100 * hushed) / recording.frames)} % of the take to silence: it takes noise for something to remove.`,
      mend: 'Switch noise suppression off, or use a plain recorder, and record again.',
    };
  }
  if (Math.sqrt(Math.max(found.rms ** 2 - found.mean ** 2, 0)) >= recording.stepSize) return null;
  return {
    code: 'too-quiet',
    message: 'The noise is smaller than one step of the recording: what it holds is the recorder’s rounding.',
    mend: 'Turn the recording level up, or record with 24 bits, and record all takes again at that level.',
  };
}

/** A copy of the power per bin in which each tone is replaced by what is beside it. */
function withoutTones({ power, binHz }: NoiseSpectrum, tones: readonly FoundTone[]): Float64Array {
  const rest = power.slice();
  for (const { fHz } of tones) {
    const middle = Math.round(fHz / binHz);
    const [from, to] = [Math.max(1, middle - TONE_BINS), Math.min(power.length - 1, middle + TONE_BINS)];
    let sum = 0;
    let count = 0;
    for (let k = from - BESIDE_BINS; k <= to + BESIDE_BINS; k++) {
      if (k < 1 || k >= power.length || (k >= from && k <= to)) continue;
      sum += power[k];
      count++;
    }
    rest.fill(count > 0 ? sum / count : 0, from, to + 1);
  }
  return rest;
}

const db = (power: number): number => 10 * Math.log10(Math.max(power, 1e-30));

/**
 * Reads one take of noise.
 *
 * @param channel  counted from 0
 * @returns levels and tones, or the problem that forbids them: shorter than 4 s, zeros, clipped, gated, under one step
 * Accuracy: octave levels of white noise within 0.3 dB for 4 s (derivation in the test)
 * Source: octaves as in IEC 61260-1:2014 (base ten); A weighting as in IEC 61672-1:2013, annex E.
 */
export function takeNoise(recording: Recording, channel: number): TakeNoise {
  const found = survey(recording, channel);
  const durationS = recording.frames / recording.rateHz;
  const problem = problemOf(recording, found);
  const spectrum = problem ? null : noiseSpectrum(recording, channel);
  if (!spectrum) {
    return { durationS, problem, aWeightedDbfs: null, hissDbfs: null, octaves: [], tones: [], spectrum: null };
  }
  const tones = foundTones(spectrum).map((tone) => ({ ...tone, ...toneAudibility(spectrum, tone) }));
  const rest = withoutTones(spectrum, tones);
  const bands = octaveBands(1, OCTAVES_HZ.from, OCTAVES_HZ.to).filter(({ highHz }) => highHz <= recording.rateHz / 2);
  const powers = bandPowers(rest, spectrum.binHz, bands);
  let hiss = 0;
  for (let k = 1; k < rest.length; k++) hiss += rest[k] * weightingPower('A', k * spectrum.binHz);
  return {
    durationS,
    problem,
    aWeightedDbfs: aWeightedDbfs(recording, channel),
    hissDbfs: db(hiss),
    octaves: bands.map(({ nominalHz }, n) => ({ fHz: nominalHz, levelDbfs: db(powers[n]) })),
    tones,
    spectrum,
  };
}

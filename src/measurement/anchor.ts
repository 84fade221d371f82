// The time reference: the driver that plays the markers, heard through all of them together.

import { linearChirp } from '../signals/chirp.ts';
import { transferFunction } from '../signals/deconvolution.ts';
import { inverseRealFft, powerOfTwoFrom, realFft, type Spectrum } from '../signals/fft.ts';
import type { Recording } from '../signals/recording.ts';
import type { Side } from '../signals/track.ts';
import { type Arrival, topOf, whitenedResponse } from './arrival-time.ts';
import { type EarlySound, earlySound } from './early-sound/early-sound.ts';
import type { Located } from './locate-track.ts';
import type { MatchedMarker } from './marker-match.ts';
import { type CircularImpulse, type TimeWindow, windowValue } from './sweep-impulse.ts';

/** Impulse response of the driver that plays the markers of one side. */
export interface Anchor {
  side: Side;
  samples: Float64Array;
  rateHz: number;
  /** Index in `samples` of the place where `Located.offset` puts the marker's start. */
  zeroIndex: number;
  /** Where the markers have energy, Hz. */
  bandHz: { low: number; high: number };
  /** In-band signal to noise of the average, through the window of `anchorArrival`, dB. */
  snrDb: number;
  /** Noise in each bin of the average for each sample of window, unit of |H|^2. */
  noisePerSample: number;
  markers: number;
  /** Of its direct sound over the markers' band, re `Located.offset`. */
  arrival: Arrival;
  /** Where its sound begins, re the same. */
  onset: EarlySound | null;
}

type HeardMarkers = Omit<Anchor, 'arrival' | 'onset'>;

const BEFORE_S = 0.015;
const AFTER_S = 0.06;

/** A marker this much less like its chirp than the middle one of its side was disturbed while it sounded. */
const DISTURBED_SHARE = 0.75;

/** All markers but those that a passing noise struck: one of six is enough to move the average's arrival by 4 ms. */
function undisturbed(members: MatchedMarker[]): MatchedMarker[] {
  const scores = members.map(({ peak }) => peak.score).sort((a, b) => a - b);
  const middle = scores[scores.length >> 1];
  return members.filter(({ peak }) => peak.score >= DISTURBED_SHARE * middle);
}

/**
 * The anchor's impulse response: every undisturbed marker of one side divided by its chirp, averaged in step.
 *
 * @returns null where no marker of that side was found
 */
export function anchorOf(recording: Recording, located: Located, side: Side): Anchor | null {
  const rateHz = located.effectiveRateHz;
  const members = undisturbed(located.match.matched.filter(({ marker }) => marker.side === side));
  if (members.length === 0) return null;
  const before = Math.round(BEFORE_S * rateHz);
  const after = Math.round(AFTER_S * rateHz);
  const longest = Math.max(...located.kinds.map((kind) => kind.durationS)) * rateHz;
  const length = Math.ceil(before + longest + after);
  const size = powerOfTwoFrom(length);
  const block = new Float64Array(length);
  const sum = { re: new Float64Array(size / 2 + 1), im: new Float64Array(size / 2 + 1) };
  const lowHz = Math.max(...located.kinds.map((kind) => Math.min(kind.fromHz, kind.toHz)));
  const highHz = Math.min(...located.kinds.map((kind) => Math.max(kind.fromHz, kind.toHz)), 0.47 * rateHz);
  const bins = {
    first: Math.floor((1.1 * lowHz * size) / rateHz) + 1,
    last: Math.min(size / 2, Math.ceil((0.9 * highHz * size) / rateHz) - 1),
  };
  const played = located.kinds.map((kind) => realFft(linearChirp({ ...kind, levelDbfs: 0 }, rateHz), size));
  let power = 0;
  for (const { marker } of members) {
    const position = located.slope * marker.frame + located.offset;
    const whole = Math.floor(position);
    recording.readChannel(located.channel, whole - before, length, block);
    const kind = located.kinds[marker.kind];
    const h = transferFunction(realFft(block, size), played[marker.kind], size, {
      rateHz,
      fromHz: Math.min(kind.fromHz, kind.toHz),
      toHz: Math.min(Math.max(kind.fromHz, kind.toHz), 0.47 * rateHz),
    });
    const gain = 10 ** (-marker.levelDbfs / 20);
    addTurned(h, gain, (2 * Math.PI * (position - whole)) / size, sum);
    power += gain * gain * powerBetween(h, bins);
  }
  const count = members.length;
  for (const part of [sum.re, sum.im]) for (let k = 0; k < part.length; k++) part[k] /= count;
  const coherent = powerBetween(sum, bins);
  const binCount = bins.last - bins.first + 1;
  // What does not repeat from marker to marker is noise; the average holds 1/count of it.
  const noise = count > 1 ? Math.max(1e-9 * coherent, (power / count - coherent) / (count - 1)) : coherent;
  const samples = inverseRealFft(sum.re, sum.im, size).slice(0, length);
  const noisePerSample = noise / binCount / size;
  const bandHz = { low: lowHz * 1.04, high: highHz * 0.96 };
  const direct = directSound({ samples, rateHz, zeroIndex: before });
  const signal = powerBetween(realFft(direct.samples, size), bins);
  const snr = signal / binCount / (noisePerSample * direct.windowEnergy) - 1;
  const average: HeardMarkers = {
    side,
    samples,
    rateHz,
    zeroIndex: before,
    bandHz,
    snrDb: 10 * Math.log10(Math.max(snr, 1e-3)),
    noisePerSample,
    markers: count,
  };
  const searchS = { from: -REACH_S, to: 0.6 * DIRECT_S };
  const band = { ...bandHz, openHigh: true };
  const onset = earlySound(onCircle(average), { low: lowHz, high: highHz }, band, searchS, { allPasses: false });
  return { ...average, arrival: anchorArrival(average, bandHz), onset };
}

function onCircle({ samples, zeroIndex, rateHz }: HeardMarkers): CircularImpulse {
  const size = powerOfTwoFrom(samples.length);
  const circle = new Float64Array(size);
  for (let n = 0; n < samples.length; n++) circle[(n - zeroIndex + size) % size] = samples[n];
  return { rateHz, size, samples: circle };
}

/** Adds `h`, times `gain`, turned by `turn` radians a bin, to `sum`. */
function addTurned({ re, im }: Spectrum, gain: number, turn: number, sum: Spectrum): void {
  for (let k = 0; k < re.length; k++) {
    const c = gain * Math.cos(turn * k);
    const s = gain * Math.sin(turn * k);
    sum.re[k] += re[k] * c - im[k] * s;
    sum.im[k] += re[k] * s + im[k] * c;
  }
}

function powerBetween({ re, im }: Spectrum, { first, last }: { first: number; last: number }): number {
  let power = 0;
  for (let k = first; k <= last; k++) power += re[k] * re[k] + im[k] * im[k];
  return power;
}

/**
 * Continuation of a response outside the markers' band: a treble driver behind its crossover.
 *
 * Only the slopes matter, and they cancel where driver and anchor are taken over the same band.
 */
export function anchorShapeDb(anchor: Pick<Anchor, 'bandHz'>): (fHz: number) => number {
  const crossoverHz = 0.75 * anchor.bandHz.low;
  const resonanceHz = 0.3 * anchor.bandHz.low;
  const upperHz = Math.max(22_000, 1.8 * anchor.bandHz.high);
  return (fHz) =>
    -20 * Math.log10(1 + (crossoverHz / fHz) ** 4) -
    10 * Math.log10(1 + (resonanceHz / fHz) ** 4) -
    10 * Math.log10(1 + (fHz / upperHz) ** 4);
}

/** Largest distance between the markers' correlation peak and the anchor's direct sound, s. */
const REACH_S = 0.004;
/** Sound after the correlation peak that still belongs to the direct sound, s: later reflections only add doubt. */
const DIRECT_S = 0.005;

/** The anchor's impulse response without the room: soft window from before the search range to 5 ms after zero. */
function directSound(
  anchor: Pick<Anchor, 'samples' | 'rateHz' | 'zeroIndex'>,
  window: TimeWindow = { fromS: -REACH_S - 0.002, toS: DIRECT_S, riseS: 0.001, fallS: 0.6 * DIRECT_S },
): { samples: Float64Array; windowEnergy: number } {
  const samples = new Float64Array(anchor.samples.length);
  let windowEnergy = 0;
  for (let i = 0; i < samples.length; i++) {
    const weight = windowValue(window, (i - anchor.zeroIndex) / anchor.rateHz);
    samples[i] = weight * anchor.samples[i];
    windowEnergy += weight * weight;
  }
  return { samples, windowEnergy };
}

/**
 * Arrival of the anchor's direct sound re `Located.offset`, over a part of the markers' band.
 *
 * Found in a wide window, then taken again through one that lets 4 ms of noise in: with more, whitened noise makes the
 * neighbouring half period of the carrier look as good as the right one.
 */
export function anchorArrival(anchor: HeardMarkers, bandHz: { low: number; high: number }): Arrival {
  const wide = lookAt(anchor, bandHz, { from: -REACH_S, to: 0.6 * DIRECT_S }, undefined);
  if (wide.atEdge) return wide;
  const at = wide.arrivalS;
  const near = { fromS: at - 0.001, toS: at + 0.003, riseS: 0.0005, fallS: 0.002 };
  const close = lookAt(anchor, bandHz, { from: at - 0.0005, to: at + 0.0005 }, near);
  return { ...close, rivalry: wide.rivalry, rivalAfterS: wide.rivalAfterS };
}

function lookAt(
  anchor: HeardMarkers,
  bandHz: { low: number; high: number },
  windowS: { from: number; to: number },
  window: TimeWindow | undefined,
): Arrival {
  const { samples, windowEnergy } = directSound(anchor, window);
  const white = whitenedResponse(samples, {
    rateHz: anchor.rateHz,
    zeroIndex: anchor.zeroIndex,
    bandHz,
    measuredHz: bandHz,
    windowS,
    outsideDb: anchorShapeDb(anchor),
    noisePower: () => anchor.noisePerSample * windowEnergy,
  });
  return topOf(white, windowS);
}

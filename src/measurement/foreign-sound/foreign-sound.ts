// Sound that neither the sweep nor the steady background explains: somebody coughs, a lorry passes, a piece is cut.
import type { Recording } from '../../signals/recording.ts';
import { type SweepShape, sweepTimeS } from '../../signals/sweep.ts';
import type { SweepSegment, TrackSegment } from '../../signals/track.ts';
import type { NoiseDensity } from '../noise-density.ts';
import { DECAY_S, type QuietStretches, type TimedEvent } from '../timeline.ts';
import { type Band, type BandFrame, bandFrames, type FrameShape, frameShape } from './band-frames.ts';
import { APART, freeBands, playedHz } from './free-bands.ts';
import { asNoiseDensity, LEAST_FRAMES, steadyBackground } from './steady-background.ts';

/** One frame of a sweep: what every free band holds over the steady background. */
export interface JudgedFrame {
  /** First sample. */
  start: number;
  /** Middle of the frame after the sweep's first sample, s. */
  atS: number;
  /** Mean square of the frame, (full scale)^2. */
  power: number;
  /** Over the background, a ratio of powers; null where the band is not free or its background not known. */
  excess: (number | null)[];
  /** Foreign density next to the frequency that plays, (full scale)^2 per Hz; null where no band near it is free. */
  density: number | null;
  /** Height of a step in the wave that would sound like that, full scale = 1. */
  stepHeight: number;
}

export interface ForeignSound {
  shape: FrameShape;
  /** Frames of each sweep, in the order of the sweeps. */
  sweeps: JudgedFrame[][];
  /** The steady background on its own; null where no band was ever free. */
  background: NoiseDensity | null;
}

/** Quiet time that is enough to know a background by, s. */
const MOST_QUIET_S = 5;
/** Neighbouring free bands so much over the steady background hold something else: chance alone gives 7 dB at most. */
const FOREIGN = 8;
/** Free bands on each side that speak for the frequency that plays. */
const NEAREST = 3;

/**
 * Listens to what each sweep leaves free: bands it played long ago, and bands its harmonics have not reached.
 *
 * @param rateHz recorded samples per second on the player's clock
 * Source: derived; the sweep's frequency is known at every moment, so whatever sounds elsewhere is not the car.
 */
export function foreignSound(
  recording: Recording,
  channel: number,
  events: readonly TimedEvent[],
  quiet: QuietStretches,
  rateHz: number,
): ForeignSound {
  const shape = frameShape(rateHz);
  const heard: number[][] = shape.bands.map(() => []);
  for (const stretch of [quiet.before, ...quiet.between, quiet.after]) {
    if (!stretch) continue;
    const to = stretch.start + Math.min(stretch.length, MOST_QUIET_S * rateHz);
    for (const { density } of bandFrames(recording, channel, shape, stretch.start, to)) {
      for (const [b, band] of heard.entries()) band.push(density[b]);
    }
  }
  const known = (heard[0]?.length ?? 0) >= LEAST_FRAMES;
  const sweeps = events.flatMap((event, i) => {
    if (event.segment.kind !== 'sweep') return [];
    const before = events[i - 1];
    const from = Math.max(event.start - shape.size, before?.end ?? 0);
    const to = Math.min(event.end + DECAY_S * rateHz, events[i + 1]?.start ?? Number.POSITIVE_INFINITY);
    const frames = bandFrames(recording, channel, shape, from, to);
    return [freedFrames(shape, event, frames, before)];
  });
  if (!known) {
    for (const { frame, free } of sweeps.flat()) {
      for (const [b, band] of heard.entries()) if (free[b]) band.push(frame.density[b]);
    }
  }
  const background = steadyBackground(shape, heard);
  return {
    shape,
    background: asNoiseDensity(shape, background, (heard.at(-1)?.length ?? 0) * (shape.size / 2 / rateHz)),
    sweeps: sweeps.map((frames) => frames.map((freed) => judged(shape, freed, background))),
  };
}

interface FreedFrame {
  frame: BandFrame;
  atS: number;
  power: number;
  free: boolean[];
  /** Free only of what a driver far above its band may add: harmonics of the little that plays. */
  nearlyFree: boolean[];
  /** First band above the frequency that plays. */
  firstAbove: number;
}

/** A sweep so far under its loudest moment, and past it, has left the driver's band. */
const PAST_BAND = 0.01;

function freedFrames(
  { size, rateHz, bands }: FrameShape,
  event: TimedEvent,
  frames: readonly BandFrame[],
  before: TimedEvent | undefined,
): FreedFrame[] {
  const sweep = event.segment as SweepSegment;
  const powers = frames.map(({ density }) =>
    bands.reduce((sum, { lowHz, highHz }, b) => sum + 2 * density[b] * (highHz - lowHz), 0),
  );
  const loudest = powers.indexOf(Math.max(...powers));
  return frames.map((frame, i) => {
    const fromS = (frame.start - event.start) / rateHz;
    const toS = fromS + size / rateHz;
    const { belowHz, aboveHz } = clicksAt(sweep, fromS, toS) ? NOTHING_FREE : freeBands(sweep, fromS, toS);
    const still = before && frame.start < before.end + DECAY_S * rateHz ? before.segment : null;
    const quietBand = (band: Band): boolean => !still || !soundsIn(still, band);
    const past = i > loudest && powers[i] < PAST_BAND * powers[loudest];
    const nowHz = playedHz(sweep, toS) * APART;
    const above = bands.findIndex(({ lowHz }) => lowHz > nowHz);
    return {
      frame,
      atS: (fromS + toS) / 2,
      power: powers[i],
      free: bands.map((band) => quietBand(band) && (band.highHz < belowHz || band.lowHz > aboveHz)),
      nearlyFree: bands.map(({ lowHz }) => past && aboveHz < Number.POSITIVE_INFINITY && lowHz > nowHz),
      firstAbove: above < 0 ? bands.length : above,
    };
  });
}

/** Does a segment sound in a band? */
function soundsIn(segment: TrackSegment, { lowHz, highHz }: Band): boolean {
  const { fromHz, toHz } = segment as { fromHz?: number; toHz?: number };
  if (fromHz === undefined || toHz === undefined) return true;
  return (
    highHz > Math.min(fromHz, toHz) / APART && (segment.kind === 'sweep' || lowHz < Math.max(fromHz, toHz) * APART)
  );
}

const NOTHING_FREE = { belowHz: 0, aboveHz: Number.POSITIVE_INFINITY };
const SHORTEST_FADE_S = 0.004;

/** A sweep that begins or ends without a fade clicks there by itself, and the car rings after it. */
function clicksAt({ durationS, fadeInS, fadeOutS }: SweepShape, fromS: number, toS: number): boolean {
  const rings = (atS: number): boolean => toS > atS && fromS < atS + DECAY_S;
  return ((fadeInS ?? 0) < SHORTEST_FADE_S && rings(0)) || ((fadeOutS ?? 0) < SHORTEST_FADE_S && rings(durationS));
}

/** Share of a frame's power that harmonics of a driver above its band never reach in one band. */
const HARMONIC_SHARE = 0.1;

function judged(
  { bands, size, rateHz }: FrameShape,
  freed: FreedFrame,
  background: readonly (number | null)[],
): JudgedFrame {
  const { frame, atS, power, free, nearlyFree, firstAbove } = freed;
  const excess = background.map((steady, b) => {
    if (steady === null || !(free[b] || nearlyFree[b])) return null;
    const ratio = frame.density[b] / Math.max(steady, 1e-30);
    const share = (2 * frame.density[b] * (bands[b].highHz - bands[b].lowHz)) / power;
    return free[b] || share > HARMONIC_SHARE || ratio < 1 ? ratio : 1;
  });
  const sides = [
    bands.flatMap((_, b) => (b < firstAbove && excess[b] !== null ? [b] : [])).slice(-NEAREST),
    bands.flatMap((_, b) => (b >= firstAbove && excess[b] !== null ? [b] : [])).slice(0, NEAREST),
  ].filter((side) => side.length > 0);
  const densities = sides.map((side) => {
    const over = meanOf(side, (b) => excess[b] ?? 0);
    return over > FOREIGN
      ? meanOf(side, (b) => frame.density[b] * Math.max(0, 1 - 1 / Math.max(1, excess[b] ?? 1)))
      : 0;
  });
  const foreign = densities.some((density) => density > 0);
  return {
    start: frame.start,
    atS,
    power,
    excess,
    density: densities.length > 0 ? Math.max(...densities) : null,
    stepHeight: foreign ? stepHeightOf(freed, sides.flat(), { bands, size, rateHz }, excess) : 0,
  };
}

/** Spread of the heights that single bands give a step, power ratio: a loose part's burst is no step and spreads wider. */
const MOST_SPREAD = 16;

/**
 * Height of a step in the wave that sounds like this frame; 0 where its spectrum is not that of a step.
 *
 * A step of height A has the spectrum A / (2 pi f): every band must give the same A.
 */
function stepHeightOf(
  { frame, free }: FreedFrame,
  nearest: readonly number[],
  { bands, size, rateHz }: FrameShape,
  excess: readonly (number | null)[],
): number {
  const squareIn = (b: number): number =>
    frame.density[b] * ((0.375 * size) / rateHz) * (2 * Math.PI * bands[b].lowHz) ** 2;
  const clear = bands.flatMap((_, b) => (free[b] && (excess[b] ?? 0) > FOREIGN ? [squareIn(b)] : []));
  if (clear.length < 2 || Math.max(...clear) > MOST_SPREAD * Math.min(...clear)) return 0;
  return Math.sqrt(Math.min(...nearest.map(squareIn)));
}

function meanOf(bands: readonly number[], value: (band: number) => number): number {
  return bands.reduce((sum, b) => sum + value(b), 0) / bands.length;
}

/** Time about its own place in the sweep from which sound enters the response at one frequency, s. */
const LEAD_S = 0.03;
const TAIL_S = 0.2;

/** Foreign density that enters the response of one sweep at `fHz`, (full scale)^2 per Hz; 0 where nothing was heard. */
export function foreignDensityAt(frames: readonly JudgedFrame[], sweep: SweepShape, fHz: number): number {
  const known = frames.filter(({ density }) => density !== null);
  if (known.length === 0) return 0;
  const playedS = Math.min(Math.max(0, sweepTimeS(sweep, Math.max(fHz, 1e-3))), sweep.durationS);
  const inside = known.filter(({ atS }) => atS > playedS - LEAD_S && atS < playedS + TAIL_S);
  const taken = inside.length > 0 ? inside : [nearestTo(known, playedS)];
  return taken.reduce((sum, { density }) => sum + (density ?? 0), 0) / taken.length;
}

function nearestTo(frames: readonly JudgedFrame[], timeS: number): JudgedFrame {
  return frames.reduce((best, frame) => (Math.abs(frame.atS - timeS) < Math.abs(best.atS - timeS) ? frame : best));
}

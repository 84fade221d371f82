// The recorder's clock from a sweep that the track plays more than once, where there are no markers to tell.
import type { Recording } from '../signals/recording.ts';
import type { SweepSegment, TrackDescription } from '../signals/track.ts';
import type { Located } from './locate-track.ts';
import { relativeDelay } from './marker-search.ts';
import { type SweepImpulse, sweepImpulse, windowed } from './sweep-impulse.ts';

const ROUNDS = 3;
const LEAST_SIMILARITY = 0.7;
/** No two devices run further apart than this, ppm: plays that do have lost or doubled sound between them. */
const MOST_PPM = 600;
/** Timing of one response against another, samples. */
const SIGMA_SAMPLES = 0.05;

/** Two sweeps of one shape and side, as far apart as the track has them. */
function repeatedPair(sweeps: SweepSegment[]): [SweepSegment, SweepSegment] | null {
  let best: [SweepSegment, SweepSegment] | null = null;
  for (const one of sweeps) {
    for (const other of sweeps) {
      const same =
        other.startS > one.startS &&
        one.fromHz === other.fromHz &&
        one.toHz === other.toHz &&
        one.durationS === other.durationS &&
        one.side === other.side;
      if (same && (!best || other.startS - one.startS > best[1].startS - best[0].startS)) best = [one, other];
    }
  }
  return best;
}

/**
 * The place of the track with the clock that its repeated sweep gives.
 *
 * A wrong clock smears each response alike, so comparing the two converges: three rounds bring 500 ppm below 0.1.
 *
 * @returns the place as it was, drift unknown, where no sweep repeats or the two responses are not alike; with
 *          `addedS` where sound was added between the plays, negative where it was lost
 */
export function withDriftFromRepeats(
  recording: Recording,
  located: Located,
  track: TrackDescription,
  onProgress: (share: number) => void = () => {},
): Located {
  const sweeps = track.segments.filter((segment): segment is SweepSegment => segment.kind === 'sweep');
  const pair = repeatedPair(sweeps);
  if (!pair) return located;
  const frames = pair.map((segment) => Math.round(segment.startS * track.rateHz));
  const nominal = (recording.rateHz * located.ratio) / track.rateHz;
  let slope = located.slope;
  let offset = located.offset;
  for (let round = 0; round < ROUNDS; round++) {
    const rateHz = slope * track.rateHz;
    let centreS: number | null = null;
    // One response at a time: two of half a minute each do not fit into a small memory.
    const [first, second] = pair.map((segment, i) => {
      onProgress((2 * round + i) / (2 * ROUNDS));
      const start = slope * frames[i] + offset;
      const impulse = sweepImpulse(recording, located.channel, segment, start, rateHz, track.rateHz, 0.3);
      centreS ??= loudestS(impulse);
      const { samples } = windowed(impulse, { fromS: centreS - 0.02, toS: centreS + 0.04, riseS: 0.005, fallS: 0.02 });
      return { re: samples, im: new Float64Array(samples.length) };
    });
    const { delay, similarity } = relativeDelay(second, first, 0.01 * rateHz);
    if (similarity < LEAST_SIMILARITY) return located;
    const change = delay / (frames[1] - frames[0]);
    // The first sweep's own place is kept: the line turns about it.
    offset -= change * frames[0];
    slope += change;
  }
  const driftPpm = (slope / nominal - 1) * 1e6;
  if (Math.abs(driftPpm) > MOST_PPM) {
    return { ...located, addedS: ((slope - located.slope) * (frames[1] - frames[0])) / located.effectiveRateHz };
  }
  return {
    ...located,
    slope,
    offset,
    effectiveRateHz: slope * track.rateHz,
    driftPpm,
    driftSigmaPpm: (SIGMA_SAMPLES / (frames[1] - frames[0]) / nominal) * 1e6,
  };
}

function loudestS(impulse: SweepImpulse): number {
  const reach = Math.round(0.1 * impulse.rateHz);
  let best = 0;
  for (let n = -reach; n <= reach; n++) {
    const at = (n + impulse.size) % impulse.size;
    if (Math.abs(impulse.samples[at]) > Math.abs(impulse.samples[(best + impulse.size) % impulse.size])) best = n;
  }
  return best / impulse.rateHz;
}

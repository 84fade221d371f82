// One reading taken apart: each stage by the function that does it, timed, in the order of `readTake`.
import { anchorOf } from '../src/measurement/anchor.ts';
import { checkedRecording } from '../src/measurement/checks/all-checks.ts';
import { pathLikeness } from '../src/measurement/checks/of-reading.ts';
import type { TakeContext } from '../src/measurement/checks/take-context.ts';
import { impulseAtRate } from '../src/measurement/impulse-at-rate.ts';
import { locateTrack } from '../src/measurement/locate-track.ts';
import { noiseDensity, type Stretch } from '../src/measurement/noise-density.ts';
import { noiseDuringDb } from '../src/measurement/noise-during.ts';
import { survey } from '../src/measurement/survey.ts';
import { sweepImpulse } from '../src/measurement/sweep-impulse.ts';
import { sweepReading } from '../src/measurement/sweep-reading.ts';
import { quietStretches, timedEvents } from '../src/measurement/timeline.ts';
import type { Recording } from '../src/signals/recording.ts';
import type { SweepSegment, TrackDescription } from '../src/signals/track.ts';

/** Stages as bench/peer/read_take.py names them. */
export const stageNames = [
  'survey',
  'markers and clock',
  'background',
  'checks',
  'deconvolution',
  'time reference',
  'response, arrival, distortion',
  'impulse response shown',
] as const;

/** Milliseconds of each stage, for a track of markers and one sweep on the left. */
export function stageTimes(recording: Recording, track: TrackDescription): Record<string, number> {
  const times: Record<string, number> = {};
  let last = performance.now();
  const clock = (name: (typeof stageNames)[number]): void => {
    const now = performance.now();
    times[name] = now - last;
    last = now;
  };
  const surveyed = survey(recording, 0);
  clock('survey');
  const located = locateTrack(recording, 0, track);
  clock('markers and clock');
  const events = timedEvents(track, located);
  const quiet = quietStretches(events, recording.frames, recording.rateHz);
  const rateHz = located.effectiveRateHz;
  const density = (stretch: Stretch | null) => stretch && noiseDensity(recording, 0, [stretch], rateHz);
  const [noiseBefore, noiseAfter] = [density(quiet.before), density(quiet.after)];
  clock('background');
  const sweep = events.find(({ segment }) => segment.kind === 'sweep');
  if (!sweep || !noiseBefore) throw new Error('the take must hold a sweep and some background');
  const context: TakeContext = {
    recording,
    channel: 0,
    track,
    survey: surveyed,
    located,
    events,
    quiet,
    noiseBefore,
    noiseAfter,
    noiseDuringDb: noiseDuringDb(recording, 0, sweep, noiseBefore)?.changeDb ?? null,
    stimulusHz: { low: 20, high: 20_000 },
  };
  checkedRecording(context);
  clock('checks');
  const segment = sweep.segment as SweepSegment;
  const impulse = sweepImpulse(recording, 0, segment, sweep.start, rateHz, track.rateHz, 0.5);
  clock('deconvolution');
  const anchor = anchorOf(recording, located, 'right');
  if (!anchor) throw new Error('the take must hold markers on the right');
  clock('time reference');
  const reading = sweepReading({
    segment,
    impulse,
    noise: noiseBefore,
    anchor,
    expectArrivalS: { from: -0.012, to: 0.012 },
    smoothOctaves: 1 / 12,
    bandHz: null,
    correctionDb: () => 0,
  });
  pathLikeness(impulse, anchor);
  clock('response, arrival, distortion');
  impulseAtRate(impulse, reading.originS, track.rateHz);
  clock('impulse response shown');
  return times;
}

// What the checks may look at, from a track that was found in a recording.
import type { Recording } from '../../signals/recording.ts';
import type { TrackDescription } from '../../signals/track.ts';
import type { Located } from '../locate-track.ts';
import { type NoiseDensity, noiseDensity, type Stretch } from '../noise-density.ts';
import { noiseDuringDb } from '../noise-during.ts';
import type { Survey } from '../survey.ts';
import { quietStretches, timedEvents } from '../timeline.ts';
import type { TakeContext } from './take-context.ts';

/** The track laid over the recording, with the background before, after and during it. */
export function takeContext(
  recording: Recording,
  track: TrackDescription,
  { located, survey }: { located: Located; survey: Survey },
): TakeContext {
  const { channel, effectiveRateHz } = located;
  const events = located.how === 'nothing' ? [] : timedEvents(track, located);
  const quiet = quietStretches(events, recording.frames, recording.rateHz);
  const density = (stretch: Stretch | null): NoiseDensity | null =>
    stretch ? noiseDensity(recording, channel, [stretch], effectiveRateHz) : null;
  const noiseBefore = density(quiet.before);
  const firstSweep = events.find(({ segment }) => segment.kind === 'sweep');
  const during = firstSweep && noiseBefore ? noiseDuringDb(recording, channel, firstSweep, noiseBefore) : null;
  return {
    recording,
    channel,
    track,
    survey,
    located,
    events,
    quiet,
    noiseBefore,
    noiseAfter: density(quiet.after),
    noiseDuringDb: during?.changeDb ?? null,
    stimulusHz: stimulusRange(track),
  };
}

function stimulusRange(track: TrackDescription): { low: number; high: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const segment of track.segments) {
    if (segment.kind === 'silence' || segment.kind === 'marker') continue;
    const { fromHz, toHz, fHz } = segment as { fromHz?: number; toHz?: number; fHz?: number };
    low = Math.min(low, fromHz ?? fHz ?? low);
    high = Math.max(high, toHz ?? fHz ?? high);
  }
  if (high === 0) {
    for (const segment of track.segments) {
      if (segment.kind !== 'marker') continue;
      const { fromHz, toHz } = segment as { fromHz: number; toHz: number };
      low = Math.min(low, fromHz, toHz);
      high = Math.max(high, fromHz, toHz);
    }
  }
  return { low: Number.isFinite(low) ? low : 20, high: high || 20_000 };
}

// Which input of a recording hears the track.
import type { Recording } from '../signals/recording.ts';
import type { TrackDescription } from '../signals/track.ts';
import { type Located, locateTrack } from './locate-track.ts';
import { type Survey, survey } from './survey.ts';

export interface ChosenChannel {
  located: Located;
  survey: Survey;
}

/** A channel this far under the loudest one is an open input. */
const DEAD_INPUT = 1e-4;

/**
 * The channel asked for, or the one in which the track stands out best.
 *
 * Never a sum: two capsules a hand apart would comb. Channels that are equal to the last digit count once.
 */
export function chosenChannel(
  recording: Recording,
  track: TrackDescription,
  asked: number | undefined,
  onProgress: (share: number) => void,
): ChosenChannel {
  const channels = asked === undefined ? Array.from({ length: recording.channels }, (_, i) => i) : [asked];
  const surveys = channels.map((channel) => survey(recording, channel));
  const loudest = Math.max(...surveys.map(({ rms }) => rms));
  let best: ChosenChannel | null = null;
  channels.forEach((channel, i) => {
    const twin = surveys.findIndex((other) => other.rms === surveys[i].rms && other.peak === surveys[i].peak);
    if (best && (twin < i || surveys[i].rms < DEAD_INPUT * loudest)) return;
    const located = locateTrack(recording, channel, track, (share) => onProgress((i + share) / channels.length));
    if (!best || located.score > best.located.score) best = { located, survey: surveys[i] };
  });
  if (!best) throw new Error('a recording must have at least one channel');
  return best;
}

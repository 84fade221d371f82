// One long take with a stop at each driver: every play of the track in it, as a take of its own.
import type { Recording } from '../../signals/recording.ts';
import { recordingPart } from '../../signals/recording-part.ts';
import type { TrackDescription } from '../../signals/track.ts';
import { chosenChannel } from '../channel-choice.ts';

export interface Play {
  /** Where in the long take the track begins, s. */
  startS: number;
  /** This play, from the track's first sample until the car is silent again. */
  recording: Recording;
}

/** A play may be this much shorter than the track: a clock that runs fast. */
const SHORTEST_SHARE = 0.999;
/** A part shorter than this share of the track holds none; a header's rate may be half the true one. */
const SHORTEST_PART = 0.45;
/** The way to the microphone and what still sounds after the track, s. */
const AFTER_S = 0.4;

/**
 * Every whole play of a track in a recording, in their order.
 *
 * The play that stands out best is found first, then those before it and behind it. A play that was broken off holds one
 * group of markers only and is none.
 *
 * @param track       with markers at its start and its end: without them plays cannot be told apart
 * @param onProgress  share of the recording that is searched, 0 .. 1
 */
export function playsIn(
  recording: Recording,
  track: TrackDescription,
  onProgress: (share: number) => void = () => {},
): Play[] {
  let searched = 0;
  const done = (frames: number): void => {
    searched += frames;
    onProgress(Math.min(1, searched / recording.frames));
  };
  const within = (from: number, to: number): Play[] => {
    const part = recordingPart(recording, from, to - from);
    if (part.frames < SHORTEST_PART * track.durationS * recording.rateHz) {
      done(part.frames);
      return [];
    }
    const { located } = chosenChannel(part, track, undefined, () => {});
    const { groupsFound, groupCount } = located.match;
    const whole = groupCount > 1 && groupsFound[0] === 0 && groupsFound.includes(groupCount - 1);
    if (located.how !== 'markers' || !whole) {
      done(part.frames);
      return [];
    }
    const start = from + located.offset;
    const end = start + SHORTEST_SHARE * located.slope * track.durationS * track.rateHz;
    const frames = end - start + AFTER_S * recording.rateHz;
    const play: Play = {
      startS: start / recording.rateHz,
      recording: recordingPart(recording, start, Math.min(frames, to - start)),
    };
    done(end - start);
    return [...within(from, Math.floor(start)), play, ...within(Math.ceil(end), to)];
  };
  return within(0, recording.frames);
}

// Faults of the recording as a file: samples lost, doubled, emptied; ends missing; a header that lies; another track.
import type { TrackDescription } from '../../signals/track.ts';
import type { RecordingEdit } from '../recording-edits.ts';
import type { TakeRequest } from '../take-request.ts';
import { drawn, type FaultyWorld, firstStimulus, heardAtS, recorderOf, truthOf, withRecorder } from './fault.ts';

function withEdits(world: TakeRequest, ...edits: RecordingEdit[]): TakeRequest {
  return withRecorder(world, { edits: [...recorderOf(world).edits, ...edits] });
}

/** A moment within the middle half of the first stimulus, as heard. */
function withinStimulusS(world: TakeRequest, purpose: string): number {
  const { startS, durationS } = firstStimulus(world);
  return heardAtS(world, startS + durationS * drawn(world, purpose, 0.25, 0.75));
}

/** A buffer of samples never reaches the file. */
export function lostSamples(world: TakeRequest, samples = 1024): FaultyWorld {
  const atS = withinStimulusS(world, 'lost samples');
  return {
    world: withEdits(world, { kind: 'lose', atS, samples }),
    truth: truthOf('lost-samples', { mustFlag: ['gap'], mayAlsoFlag: ['agc'], detail: { atS, samples } }),
  };
}

/** A buffer is written twice. */
export function doubledSamples(world: TakeRequest, samples = 1024): FaultyWorld {
  const atS = withinStimulusS(world, 'doubled samples');
  return {
    world: withEdits(world, { kind: 'double', atS, samples }),
    truth: truthOf('doubled-samples', { mustFlag: ['gap'], mayAlsoFlag: ['agc'], detail: { atS, samples } }),
  };
}

/** A buffer is written as zeros; the length stays right. */
export function zeroFilled(world: TakeRequest, durationS = 0.021): FaultyWorld {
  const atS = withinStimulusS(world, 'zero-filled');
  return {
    world: withEdits(world, { kind: 'zero-fill', atS, durationS }),
    truth: truthOf('zero-filled', { mustFlag: ['zero-fill'], mayAlsoFlag: ['gated'], detail: { atS, durationS } }),
  };
}

/** The header gives another rate than the recorder ran at. */
export function wrongHeaderRate(world: TakeRequest, labelRateHz?: number): FaultyWorld {
  const { rateHz } = recorderOf(world);
  const label = labelRateHz ?? (rateHz === 48_000 ? 44_100 : 48_000);
  return {
    world: withRecorder(world, { labelRateHz: label }),
    truth: truthOf('wrong-header-rate', { mustFlag: ['rate-mismatch'], detail: { rateHz, labelRateHz: label } }),
  };
}

/** The recorder was stopped while the first stimulus played. */
export function truncatedEnd(world: TakeRequest): FaultyWorld {
  const atS = withinStimulusS(world, 'truncated end');
  return {
    world: withEdits(world, { kind: 'cut-end', atS }),
    truth: truthOf('truncated-end', { mustFlag: ['truncated'], usable: false, detail: { atS } }),
  };
}

/** The recorder was started while the first stimulus played. */
export function truncatedStart(world: TakeRequest): FaultyWorld {
  const durationS = withinStimulusS(world, 'truncated start');
  return {
    world: withEdits(world, { kind: 'cut-start', durationS }),
    truth: truthOf('truncated-start', {
      mustFlagOneOf: ['truncated', 'no-markers'],
      mayAlsoFlag: ['truncated', 'no-markers', 'low-snr', 'wrong-track'],
      usable: false,
      detail: { durationS },
    }),
  };
}

/** Another track of the job was playing; `other` differs from the world's track in its code. */
export function wrongTrack(world: TakeRequest, other: TrackDescription): FaultyWorld {
  return {
    world: { ...world, played: other },
    truth: truthOf('wrong-track', {
      mustFlag: ['wrong-track'],
      mayAlsoFlag: ['low-snr'],
      usable: false,
      detail: { code: other.code ?? -1 },
    }),
  };
}

/** Single samples that jump. */
export function clicks(world: TakeRequest, count = 12): FaultyWorld {
  const { startS, durationS } = firstStimulus(world);
  const fromS = heardAtS(world, startS);
  const toS = heardAtS(world, startS + durationS);
  return {
    world: withEdits(world, { kind: 'clicks', count, level: 0.05, fromS, toS }),
    truth: truthOf('clicks', { mayAlsoFlag: ['gap', 'low-snr'], detail: { count } }),
  };
}

/** Clocks so far apart that one of them is cheap. */
export function farClock(world: TakeRequest, driftPpm = 900): FaultyWorld {
  return {
    world: withRecorder(world, { driftPpm }),
    truth: truthOf('far-clock', { mustFlag: ['clock-drift'], usable: true, detail: { driftPpm } }),
  };
}

// Is it this track, and is all of it there?
import { codeOfGaps } from '../marker-match.ts';
import type { Check, TakeContext } from './take-context.ts';

const QUIET_RMS = 10 ** (-50 / 20);
/** Loudest over median block, power: below it nothing but steady noise was recorded. */
const FLAT_RATIO = 10 ** 0.8;

/** Nothing but steady, quiet background from end to end. */
export const silent: Check = ({ located, survey }) => {
  if (located.how !== 'nothing') return null;
  const sorted = survey.blockPower.slice().sort();
  const median = sorted[sorted.length >> 1] ?? 0;
  const loudest = sorted[Math.floor(sorted.length * 0.99)] ?? 0;
  if (survey.peak > 0 && (survey.rms > QUIET_RMS || loudest > FLAT_RATIO * Math.max(median, 1e-14))) return null;
  return {
    code: 'silent',
    message:
      survey.peak > 0
        ? `The recording holds only quiet background: its loudest sample is ${(20 * Math.log10(survey.peak)).toFixed(0)} dBFS.`
        : 'Every sample of the recording is zero.',
    mend: 'Check that the source plays, that the outputs are not muted and that the right microphone was recorded.',
    values: { peakDbfs: 20 * Math.log10(Math.max(survey.peak, 1e-7)) },
  };
};

/** The code that the track's own marker groups spell, or null where they spell none. */
export function expectedCode({ located }: Pick<TakeContext, 'located'>): number | null {
  const first = located.markers.filter((marker) => marker.group === located.markers[0].group);
  if (first.length !== 3) return null;
  return codeOfGaps(first[1].timeS - first[0].timeS, first[2].timeS - first[1].timeS);
}

const LEAST_GROUP_SCORE = 0.75;
/** One group alone must stand out this much: among faint chirps and reflections three may lie at a code's gaps by chance. */
const LONE_GROUP_SCORE = 1.2;
/** A group further from its place than any device loses samples belongs to another track. */
const OTHER_TRACK_S = 1;

/** Marker groups that spell another code, or that lie where this track has none. */
export const wrongTrack: Check = (context) => {
  const { located } = context;
  const expected = expectedCode(context);
  if (expected === null) return null;
  const mend = 'Read it with the description of the track that was playing, or play this track and record again.';
  const strong = located.coded.filter((group) => group.score >= LEAST_GROUP_SCORE);
  const other = strong.reduce<(typeof strong)[number] | null>(
    (best, group) => (!best || group.score > best.score ? group : best),
    null,
  );
  const spelledTwice = strong.filter((group) => group.code === other?.code).length > 1;
  const certain = other !== null && (spelledTwice || other.score >= LONE_GROUP_SCORE);
  if (certain && !located.coded.some((group) => group.code === expected)) {
    return {
      code: 'wrong-track',
      message: `Another track was playing: its markers spell code ${other.code}, this track has ${expected}.`,
      mend,
      atS: other.timeS,
      values: { codeFound: other.code, codeExpected: expected },
    };
  }
  const far = located.match.displaced.find((group) => Math.abs(group.byS) > OTHER_TRACK_S);
  if (far) {
    return {
      code: 'wrong-track',
      message: `The closing markers come ${Math.abs(far.byS).toFixed(1)} s too ${far.byS > 0 ? 'late' : 'early'}: another track with the same code was playing.`,
      mend,
      values: { displacedS: far.byS },
    };
  }
  return null;
};

/** Groups that should be there are not, or the recording ends before the track does. */
export const truncated: Check = (context) => {
  const { located, recording, events } = context;
  const rateHz = recording.rateHz;
  const mend = 'Record again: start before the track plays and stop after its last markers.';
  const last = events[events.length - 1];
  if (located.how === 'nothing' || !last) return null;
  const endsEarly = last.end > recording.frames + 0.002 * rateHz;
  const startsLate = events[0].start < -0.002 * rateHz;
  if (located.how === 'sweeps') {
    if (!endsEarly && !startsLate) return null;
    return {
      code: 'truncated',
      message: endsEarly ? 'The recording ends before the track does.' : 'The recording begins after the track did.',
      mend,
      values: { endsAtS: recording.frames / rateHz },
    };
  }
  const { match } = located;
  if (match.groupCount < 2 && !endsEarly && !startsLate) return null;
  const missingLast = !match.groupsFound.includes(match.groupCount - 1);
  const missingFirst = !match.groupsFound.includes(0);
  // Markers that stand out clearly where they were found cannot have drowned where they were not.
  const clear = match.score / Math.max(1, match.matched.length) > 0.4;
  const displaced = match.displaced.length > 0;
  if (endsEarly || (missingLast && clear && !displaced)) {
    return {
      code: 'truncated',
      message: `The track is not whole: the recording has ${(recording.frames / rateHz).toFixed(1)} s and the closing markers are missing.`,
      mend,
      values: { endsAtS: recording.frames / rateHz, expectedEndS: last.end / rateHz },
    };
  }
  if (startsLate || (missingFirst && clear && !displaced)) {
    return {
      code: 'truncated',
      message: 'The recording began after the track did: the opening markers are missing.',
      mend,
      values: { missingS: Math.max(0, -events[0].start / rateHz) },
    };
  }
  return null;
};

/** The track has markers, none were heard. */
export const noMarkers: Check = ({ located, track }) => {
  if (located.how === 'markers' || located.markers.length === 0) return null;
  const sweeps = located.how === 'sweeps';
  return {
    code: 'no-markers',
    message: sweeps
      ? 'The markers were not heard; the take was read by its sweeps instead, so there is no time reference.'
      : `None of the markers of this ${track.kind} track were heard.`,
    mend: 'Check that the driver that plays the markers is not muted, and record closer or louder.',
    ...(sweeps ? {} : { severity: 'stop' as const }),
  };
};

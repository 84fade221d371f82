// Did the recorder change its gain or hide the quiet parts while the track played?

import type { MarkerSegment, TrackDescription } from '../../signals/track.ts';
import { thirdOctaves } from '../grids.ts';
import { densityBetween, type NoiseDensity, noiseDensity } from '../noise-density.ts';
import { type Check, rmsOf, type TakeContext } from './take-context.ts';

const GAIN_DB = 0.7;

interface MarkerLevel {
  frame: number;
  /** Recorded over played. */
  db: number;
  levelDbfs: number;
  group: number;
  score: number;
}

/**
 * Standard deviation that the background gives the amplitude of a marker, full scale = 1.
 *
 * A chirp of duration T with raised-cosine quarters has the energy 0.34 T per unit of amplitude; a matched filter's
 * amplitude then varies by the root of density over energy.
 */
function markerAmplitudeSd(track: TrackDescription, noise: NoiseDensity | null): number | null {
  const marker = track.segments.find(({ kind }) => kind === 'marker') as MarkerSegment | undefined;
  if (!marker || !noise) return null;
  const [lowHz, highHz] = [Math.min(marker.fromHz, marker.toHz), Math.max(marker.fromHz, marker.toHz)];
  return Math.sqrt(densityBetween(noise, lowHz, highHz) / (0.34 * marker.durationS));
}

/** Markers that the track plays at one level are recorded at different ones. */
export const changingGain: Check = ({ located, recording, track, noiseBefore }) => {
  // A hand-stepped ladder changes its own level.
  if (track.kind === 'ladder') return null;
  const { matched } = located.match;
  const last = located.match.groupCount - 1;
  const changes: number[] = [];
  let sdDb = 0;
  const amplitudeSd = markerAmplitudeSd(track, noiseBefore);
  const deviations = new Map<string, MarkerLevel[]>();
  for (const { marker, peak } of matched) {
    const key = `${marker.kind} ${marker.side}`;
    const list = deviations.get(key) ?? [];
    list.push({
      frame: marker.frame,
      db: 20 * Math.log10(peak.amplitude) - marker.levelDbfs,
      group: marker.group,
      score: peak.score,
      levelDbfs: marker.levelDbfs,
    });
    deviations.set(key, list);
  }
  for (const list of deviations.values()) {
    const opening = list.filter((entry) => entry.group !== last);
    for (const entry of list) {
      if (entry.group !== last) continue;
      for (const other of opening) changes.push(entry.db - other.db);
    }
    for (const entry of list) {
      // A matched filter's amplitude error from what does not match: noise and room alike, so an upper bound.
      const unlike = Math.sqrt(Math.max(0, 1 / entry.score ** 2 - 1)) / 12;
      const amplitude = 10 ** ((entry.db + entry.levelDbfs) / 20);
      const noise = amplitudeSd === null ? unlike : Math.min(unlike, amplitudeSd / amplitude);
      sdDb = Math.max(sdDb, 8.7 * noise);
    }
  }
  // A gain that moves inside one group shows before the last one is reached.
  const inside: number[] = [];
  for (const list of deviations.values()) {
    for (let i = 1; i < list.length; i++)
      if (list[i].group === list[i - 1].group) inside.push(list[i].db - list[i - 1].db);
  }
  const change = median(changes);
  const worst = inside.reduce((most, db) => (Math.abs(db) > Math.abs(most) ? db : most), 0);
  const limit = Math.max(GAIN_DB, Math.min(3, 2.5 * sdDb));
  const moved = change !== null && Math.abs(change) > limit ? change : Math.abs(worst) > 1.5 * limit ? worst : null;
  if (moved === null) return null;
  return {
    code: 'agc',
    message: `The recording gain moved: the same marker came ${Math.abs(moved).toFixed(1)} dB ${moved > 0 ? 'louder' : 'quieter'} later on.`,
    mend: 'Switch automatic gain and compression off in the recorder, or use a plain recorder, and record again.',
    values: { changeDb: moved },
    atS: matched[matched.length - 1].peak.position / recording.rateHz,
  };
};

function median(values: number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/** Median change of the background between two stretches over the third octaves from 200 Hz to 4 kHz, dB. */
export function backgroundChangeDb(before: NoiseDensity, after: NoiseDensity): number {
  const changes = thirdOctaves(200, Math.min(4000, 0.4 * before.rateHz)).map((fHz) => {
    const [from, to] = [before, after].map((noise) => densityBetween(noise, fHz / 1.12, fHz * 1.12));
    return 10 * Math.log10(Math.max(to, 1e-30) / Math.max(from, 1e-30));
  });
  return median(changes) ?? 0;
}

const HUSHED_TOTAL_S = 0.05;
/** Root mean square of a shut gate: dither and no more. */
const SHUT_STEPS = 2;
const GATED_DB = 10;
/** A background under the sweep that does not stand out of the file's own rounding. */
const COPY_DB = 3;

/** Sound cut to nothing between the events, or a background that sinks behind loud ones. */
export const gated: Check = (context) => {
  const { survey, recording, quiet, noiseDuringDb } = context;
  const before = quiet.before ? rmsOf(context, quiet.before.start, Math.min(quiet.before.length, 1 << 17)) : null;
  const step = recording.stepSize > 0 ? recording.stepSize : 2 ** -20;
  const shut = before !== null && before < SHUT_STEPS * step;
  const outside = (at: number): boolean => !context.events.some((event) => event.start <= at && at <= event.end);
  const cut = survey.hushedRuns.filter(
    (run) => outside(run.start + run.length / 2) && beginsAbruptly(context, run.start),
  );
  const totalS = cut.reduce((sum, run) => sum + run.length, 0) / recording.rateHz;
  const mend =
    'Switch noise suppression, echo cancelling and voice modes off, or record with an unprocessed input, and record again.';
  // No background under the sweep either: nothing was there to be cut away.
  if (shut && noiseDuringDb !== null && noiseDuringDb < COPY_DB && (before === 0 || totalS > HUSHED_TOTAL_S)) {
    return {
      code: 'gated',
      message:
        'The recording is as silent as a file can be wherever the track is, which no microphone is: it is the played file or a copy, or all that was quiet was cut away.',
      mend: 'Give the file that the recorder made while this track was playing; switch noise suppression and voice modes off there.',
      values: { changeDb: noiseDuringDb },
    };
  }
  if (totalS > HUSHED_TOTAL_S) {
    return {
      code: 'gated',
      message: `The recorder cuts quiet sound to nothing: ${totalS.toFixed(2)} s of silence right behind sound.`,
      mend,
      atS: cut[0].start / recording.rateHz,
      values: { hushedS: totalS },
    };
  }
  // A background that is only there while something plays: the gate opens for the track and closes behind it.
  if (shut && noiseDuringDb !== null && noiseDuringDb > GATED_DB) {
    return {
      code: 'gated',
      message: `The background is ${noiseDuringDb.toFixed(0)} dB louder while the track plays than between: a gate opens and shuts.`,
      mend,
      values: { changeDb: noiseDuringDb },
    };
  }
  return null;
};

/** Sound this many steps strong goes on just before, or a little before, a stretch of zeros: no room dies away so fast. */
const STEPS_JUST_BEFORE = 8;
const STEPS_BEFORE = 30;

function beginsAbruptly(context: TakeContext, start: number): boolean {
  const { recording } = context;
  const step = recording.stepSize > 0 ? recording.stepSize : 2 ** -20;
  const milliseconds = (count: number): number => Math.round((count / 1000) * recording.rateHz);
  if (start < milliseconds(30)) return false;
  return (
    rmsOf(context, start - milliseconds(5), milliseconds(5)) > STEPS_JUST_BEFORE * step ||
    rmsOf(context, start - milliseconds(30), milliseconds(10)) > STEPS_BEFORE * step
  );
}

const CHANGED_DB = 3;

/** The background after the track is not the one before it, or sinks already before the track begins. */
export const noiseChanged: Check = (context) => {
  const { noiseBefore, noiseAfter, noiseDuringDb, quiet, recording, channel, located } = context;
  const mend = 'Repeat the take when nothing passes by and no fan or engine starts.';
  const after = noiseBefore && noiseAfter ? backgroundChangeDb(noiseBefore, noiseAfter) : 0;
  if (Math.abs(after) > CHANGED_DB) {
    return {
      code: 'noise-changed',
      message: `The background is ${Math.abs(after).toFixed(0)} dB ${after > 0 ? 'louder' : 'quieter'} after the track than before it.`,
      mend,
      values: { changeDb: after },
    };
  }
  if (noiseDuringDb !== null && noiseDuringDb > 2 * CHANGED_DB) {
    return {
      code: 'noise-changed',
      message: `The background is ${noiseDuringDb.toFixed(0)} dB louder while the sweep plays than before it.`,
      mend,
      values: { changeDb: noiseDuringDb },
    };
  }
  if (!quiet.before || quiet.before.length < 0.6 * recording.rateHz) return null;
  const { start, length } = quiet.before;
  const third = Math.floor(length / 3);
  const [early, late] = [start, start + length - third].map((from) =>
    noiseDensity(recording, channel, [{ start: from, length: third }], located.effectiveRateHz),
  );
  const within = early && late ? backgroundChangeDb(early, late) : 0;
  if (Math.abs(within) <= 2 * CHANGED_DB) return null;
  return {
    code: 'noise-changed',
    message: `The background ${within > 0 ? 'rises' : 'sinks'} by ${Math.abs(within).toFixed(0)} dB before the track begins.`,
    mend,
    values: { changeDb: within },
  };
};

/** A background that sinks by more than 10 dB behind the loud part although the gain stood: suppression. */
export const suppressed: Check = (context) => {
  const { noiseBefore, noiseAfter } = context;
  if (!noiseBefore || !noiseAfter || changingGain(context)) return null;
  const changeDb = backgroundChangeDb(noiseBefore, noiseAfter);
  if (changeDb > -GATED_DB) return null;
  return {
    code: 'gated',
    message: `The background sinks by ${(-changeDb).toFixed(0)} dB behind the track while the gain stands: noise suppression.`,
    mend: 'Switch noise suppression and voice modes off, or use a plain recorder, and record again.',
    values: { changeDb },
  };
};

// Did the recorder run out of room, before its converter or in it?
import type { Check } from './take-context.ts';

const NEAR_FULL_SCALE = 0.985;
const LEAST_RUNS = 3;

/** Flat tops at full scale. */
export const clippedDigital: Check = ({ survey, recording }) => {
  if (survey.peak < NEAR_FULL_SCALE || survey.flatTops.length < LEAST_RUNS) return null;
  // A float file may rightly exceed 1; flat tops well above it are somebody else's clipping.
  const first = survey.flatTops[0];
  const perSecond = survey.flatTops.length / (recording.frames / recording.rateHz);
  return {
    code: 'clipped-digital',
    message: `The recording is clipped: ${survey.flatTops.length} flat tops at full scale, the first at ${(first.start / recording.rateHz).toFixed(2)} s.`,
    mend: 'Turn the recording level down by 10 dB, or move the microphone back, and record again.',
    atS: first.start / recording.rateHz,
    values: { runs: survey.flatTops.length, runsPerS: perSecond },
  };
};

const WINDOW_S = 0.02;
/** Share of samples within 1.5 % of a window's largest: 0.11 for a sine, 0.59 for one clipped at 60 %. */
const FLAT_SHARE = 0.2;
const SAME_HEIGHT = 0.03;
const LEAST_WINDOWS = 3;

/**
 * Waves limited at the microphone end: flat tops of one and the same height whatever plays.
 *
 * A clipping source or amplifier does not look like that: speaker and cabin turn the corners into other shapes, and
 * every frequency has another height.
 */
export const clippedAnalogue: Check = ({ survey, recording, channel, events }) => {
  if (survey.peak >= NEAR_FULL_SCALE && survey.flatTops.length >= LEAST_RUNS) return null;
  const length = Math.round(WINDOW_S * recording.rateHz);
  const block = new Float64Array(length);
  const heights: { height: number; at: number }[] = [];
  for (const event of events) {
    if (event.segment.kind !== 'sweep') continue;
    for (let start = Math.max(0, Math.ceil(event.start)); start + length <= event.end; start += length) {
      if (start + length > recording.frames) break;
      recording.readChannel(channel, start, length, block);
      let height = 0;
      for (let n = 0; n < length; n++) height = Math.max(height, Math.abs(block[n]));
      if (height < 0.25 * survey.peak) continue;
      let near = 0;
      for (let n = 0; n < length; n++) if (Math.abs(block[n]) > 0.985 * height) near++;
      if (near > FLAT_SHARE * length) heights.push({ height, at: start });
    }
  }
  if (heights.length < LEAST_WINDOWS) return null;
  const sorted = heights.map(({ height }) => height).sort((a, b) => a - b);
  const usual = sorted[sorted.length >> 1];
  const same = sorted.filter((height) => Math.abs(height / usual - 1) < SAME_HEIGHT).length;
  if (same <= 0.6 * sorted.length || same < LEAST_WINDOWS) return null;
  const levelDbfs = 20 * Math.log10(usual);
  return {
    code: 'clipped-analogue',
    message: `The wave is flattened at ${levelDbfs.toFixed(1)} dBFS whatever plays: the microphone or its input is overloaded.`,
    mend: 'Move the microphone back or turn the playback down; the level control after the overload does not help.',
    atS: heights[0].at / recording.rateHz,
    values: { levelDbfs, windows: same },
  };
};

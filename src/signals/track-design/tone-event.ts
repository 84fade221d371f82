// A steady tone whose cycles fit a block of samples, so that a spectrum over such blocks needs no window.
import type { ToneSegment } from '../track.ts';
import type { TrackDesign } from './design.ts';
import type { EventPart } from './timeline.ts';

const BLOCK_SAMPLES = 8192;
const RAMP_S = 0.05;

/** The frequency nearest to `askedHz` with a whole number of cycles, one at least, in 8192 samples. */
export function blockToneHz(askedHz: number, rateHz: number): number {
  return (Math.max(1, Math.round((askedHz * BLOCK_SAMPLES) / rateHz)) * rateHz) / BLOCK_SAMPLES;
}

/** A tone from sample `startFrame` of its event on. `extra` fields go into its segment. */
export function tonePart(
  design: Pick<TrackDesign, 'rateHz' | 'side' | 'stimulusS'>,
  askedHz: number,
  levelDbfs: number,
  startFrame = 0,
  extra: Record<string, number> = {},
): EventPart & { frames: number } {
  const frames = Math.round(design.stimulusS * design.rateHz);
  return {
    startFrame,
    frames,
    segment: (startS): ToneSegment => ({
      kind: 'tone',
      side: design.side,
      startS,
      durationS: frames / design.rateHz,
      fHz: blockToneHz(askedHz, design.rateHz),
      askedHz,
      levelDbfs,
      fadeInS: RAMP_S,
      fadeOutS: RAMP_S,
      ...extra,
    }),
  };
}

// `noise`: pink noise that repeats exactly, so that its spectrum over a period is known and not estimated.
import { hash32 } from '../../base/random.ts';
import type { NoiseSegment, Side } from '../track.ts';
import { noisePeriodSamples } from './defaults.ts';
import type { TrackDesign } from './design.ts';
import { singleGroup } from './group-sides.ts';
import { repeated } from './repeated.ts';
import type { NoiseRelation } from './request.ts';
import { type EventPart, REST_S, type TrackScore } from './timeline.ts';

const RAMP_S = 0.05;
/** Crest factor of programme-like noise, dB (IEC 60268-1). */
const CREST_LIMIT_DB = 12;

/** What one stretch of noise is. */
export interface NoiseShape {
  rateHz: number;
  fromHz: number;
  toHz: number;
  durationS: number;
  levelDbfs: number;
  seed: number;
  relation: NoiseRelation;
}

/** Seed of the right side's own noise: any far place of the sequence will do, but the seed itself. */
function rightSeed(seed: number): number {
  const other = hash32(seed, 0x7fffffff);
  return other === seed ? (other ^ 1) >>> 0 : other;
}

/** Pink noise from sample `startFrame` of its event on. */
export function noisePart(shape: NoiseShape, side: Side, startFrame = 0): EventPart & { frames: number } {
  const frames = Math.round(shape.durationS * shape.rateHz);
  const { levelDbfs, seed, relation, fromHz, toHz } = shape;
  const steadyFrames = frames - 2 * Math.round(RAMP_S * shape.rateHz);
  const periodSamples = noisePeriodSamples(shape.rateHz, steadyFrames, { from: fromHz, to: toHz });
  return {
    startFrame,
    frames,
    segment: (startS): NoiseSegment => ({
      kind: 'noise',
      side,
      startS,
      durationS: frames / shape.rateHz,
      spectrum: 'pink',
      levelDbfs,
      seed,
      relation,
      ...(relation === 'independent' ? { seedRight: rightSeed(seed) } : {}),
      periodSamples,
      crestLimitDb: CREST_LIMIT_DB,
      fromHz,
      toHz,
      fadeInS: RAMP_S,
      fadeOutS: RAMP_S,
    }),
  };
}

/** Score of a `noise` track. */
export function noiseScore(design: TrackDesign): TrackScore {
  const { relation: wish, stimulusS: durationS, side } = design;
  const relations: readonly NoiseRelation[] = wish === 'both' ? ['same', 'opposite'] : [wish];
  const events = relations.map((relation) => {
    const part = noisePart({ ...design, relation, durationS }, side);
    return { restS: REST_S, frames: part.frames, parts: [part] };
  });
  return { ...singleGroup(design), events: repeated(design.repeats, () => events) };
}

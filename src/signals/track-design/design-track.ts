// From a wish for a test track to the description that makes it, and by which a recording of it is read.
import type { Result } from '../../base/result.ts';
import type { TrackDescription } from '../track.ts';
import { burstsScore } from './bursts-track.ts';
import { trackCode } from './code.ts';
import type { TrackDesign } from './design.ts';
import { ladderScore } from './ladder-track.ts';
import { nearScore } from './near-track.ts';
import { noiseScore } from './noise-track.ts';
import { pairScore } from './pair-track.ts';
import { polarityScore } from './polarity-track.ts';
import type { TrackKind, TrackRequest } from './request.ts';
import { resolvedDesign } from './resolve.ts';
import { stepsScore } from './steps-track.ts';
import { sweepScore } from './sweep-track.ts';
import { layOut, type TrackScore } from './timeline.ts';
import { toneScore } from './tone-track.ts';

const scores: Record<TrackKind, (design: TrackDesign) => TrackScore> = {
  sweep: sweepScore,
  steps: stepsScore,
  noise: noiseScore,
  near: nearScore,
  pair: pairScore,
  polarity: polarityScore,
  tone: toneScore,
  ladder: ladderScore,
  bursts: burstsScore,
};

/**
 * Description of the test track that a request asks for; it says everything needed to make the sound.
 *
 * Silence, a marker group whose gaps spell the track's code, stimuli with rests between them, a closing group, silence.
 * Every segment starts on a whole sample and none peaks above the level asked for.
 *
 * @param request kind and rate; all else has defaults that suit the kind
 * @returns the description (half an hour at most), or every rule that the request breaks, `where` naming its field
 * Source: sweeps A. Farina, 108th AES Convention, preprint 5093, 2000, in whole cycles as A. Novak, P. Lotton, L. Simon,
 *   J. Audio Eng. Soc. 63(10), 2015; the layout is our own method.
 * @example designTrack({ kind: 'sweep', rateHz: 48000, side: 'left', fromHz: 20, toHz: 20000, stimulusS: 4 }) holds a
 *   sweep of 12 whole cycles per e-fold, 4.144653 s long, with markers on the right
 */
export function designTrack(request: TrackRequest): Result<TrackDescription> {
  const design = resolvedDesign(request);
  if (!design.ok) return design;
  const score = scores[design.value.kind](design.value);
  return layOut(design.value, score, design.value.code ?? trackCode(design.value));
}

// `bursts`: counts through a processor's outputs so that an ear knows which one it hears: as many short blips as the
// output's number (a long one stands for five), then noise in the same band. The last blip tells the side: it falls for
// the left and rises for the right.
import type { TrackDesign } from './design.ts';
import { singleGroup } from './group-sides.ts';
import { noisePart } from './noise-track.ts';
import { repeated } from './repeated.ts';
import { burstBandHz } from './resolve.ts';
import type { EventPart, TrackEvent, TrackScore } from './timeline.ts';

const BLIP_S = 0.12;
const LONG_BLIP_S = 0.48;
const BLIP_REST_S = 0.12;
const BLIP_RAMP_S = 0.015;
/** Time to hear, and to turn to the next output. */
const OUTPUT_REST_S = 2;
const FIFTH = 1.5;

/** Long and short blips that count `output` (from 1). */
export function blipCount(output: number): { long: number; short: number } {
  const long = Math.floor((output - 1) / 5);
  return { long, short: output - 5 * long };
}

/** Score of a `bursts` track. */
export function burstsScore(design: TrackDesign): TrackScore {
  return {
    ...singleGroup(design),
    events: repeated(design.outputs, (index) => repeated(design.repeats, () => [burst(design, index + 1)])),
  };
}

function burst(design: TrackDesign, output: number): TrackEvent {
  const { rateHz, side, levelDbfs, tonesHz, seed } = design;
  const centreHz = tonesHz[Math.min(output, tonesHz.length) - 1];
  const count = blipCount(output);
  const lengths = [...Array(count.long).fill(LONG_BLIP_S), ...Array(count.short).fill(BLIP_S)];
  const turn = side === 'both' ? 1 : side === 'right' ? FIFTH : 1 / FIFTH;
  const parts: EventPart[] = [];
  let cursor = 0;
  lengths.forEach((lengthS, index) => {
    const frames = Math.round(lengthS * rateHz);
    const toHz = index === lengths.length - 1 ? centreHz * turn : centreHz;
    parts.push({
      startFrame: cursor,
      segment: (startS) => ({
        kind: 'blip',
        side,
        startS,
        durationS: frames / rateHz,
        fromHz: centreHz,
        toHz,
        levelDbfs,
        fadeInS: BLIP_RAMP_S,
        fadeOutS: BLIP_RAMP_S,
        output,
      }),
    });
    cursor += frames + Math.round(BLIP_REST_S * rateHz);
  });
  const band = burstBandHz(centreHz, design.provenLeads);
  const noise = noisePart(
    {
      rateHz,
      fromHz: band.from,
      toHz: band.to,
      durationS: design.stimulusS,
      levelDbfs,
      seed: (seed + output - 1) % 2 ** 32,
      relation: 'same',
    },
    side,
    cursor,
  );
  return { restS: OUTPUT_REST_S, frames: cursor + noise.frames, parts: [...parts, noise] };
}

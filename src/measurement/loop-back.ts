// A take against the source itself, recorded alongside by an electrical loop-back.
import type { SweepSegment } from '../signals/track.ts';
import type { TakeContext } from './checks/take-context.ts';
import type { NoiseDensity } from './noise-density.ts';
import type { Curve, ReadOptions } from './reading.ts';
import { sweepImpulse } from './sweep-impulse.ts';
import { type SweepReading, sweepReading } from './sweep-reading.ts';
import type { TimedEvent } from './timeline.ts';

/** The same sweep as it left the source. */
export function referenceReading(
  reference: NonNullable<ReadOptions['reference']>,
  { located, track }: TakeContext,
  event: TimedEvent,
  tailS: number,
  noise: NoiseDensity | null,
): SweepReading {
  const segment = event.segment as SweepSegment;
  const rateHz = located.effectiveRateHz;
  const impulse = sweepImpulse(reference.recording, reference.input, segment, event.start, rateHz, track.rateHz, tailS);
  return sweepReading({
    segment,
    impulse,
    noise,
    anchor: null,
    expectArrivalS: { from: -0.012, to: 0.012 },
    smoothOctaves: 1 / 12,
    bandHz: null,
    correctionDb: () => 0,
  });
}

const difference = (one: Curve, other: Curve): Curve =>
  one.map((value, i) => {
    const from = other[i];
    return value === null || from === null || from === undefined ? null : value - from;
  });

/** What the sound path adds to the source: levels and phases less those of the reference. */
export function againstReference(heard: SweepReading, reference: SweepReading): SweepReading {
  const { response, bands } = heard;
  return {
    ...heard,
    response: {
      ...response,
      levelDb: difference(response.levelDb, reference.response.levelDb),
      phaseDeg: difference(response.phaseDeg, reference.response.phaseDeg).map((phase) =>
        phase === null ? null : phase - 360 * Math.round(phase / 360),
      ),
      valid: response.valid.map((valid, i) => valid && (reference.response.valid[i] ?? false)),
    },
    bands: { ...bands, levelDb: difference(bands.levelDb, reference.bands.levelDb) },
  };
}

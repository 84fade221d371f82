// The description of a test track: everything a reader must know about what was playing, and when.
import { z } from 'zod';

const seconds = z.number().min(0).max(7200);
const frequency = z.number().positive().max(192_000);
const level = z.number().min(-160).max(24);
const side = z.enum(['left', 'right', 'both']);
const span = { startS: seconds, durationS: seconds };

const silence = z.looseObject({ kind: z.literal('silence'), ...span });
const marker = z.looseObject({
  kind: z.literal('marker'),
  side,
  ...span,
  durationS: z.number().positive().max(10),
  fromHz: frequency,
  toHz: frequency,
  levelDbfs: level,
});
const sweep = z.looseObject({
  kind: z.literal('sweep'),
  side,
  ...span,
  durationS: z.number().positive().max(600),
  fromHz: frequency,
  toHz: frequency,
  levelDbfs: level,
  fadeInS: seconds.optional(),
  fadeOutS: seconds.optional(),
});
const noise = z.looseObject({
  kind: z.literal('noise'),
  side,
  ...span,
  durationS: z.number().positive().max(7200),
  spectrum: z.string(),
  levelDbfs: level,
  seed: z.number().int().min(0).max(4294967295),
  relation: z.enum(['same', 'opposite', 'independent']).optional(),
  /** Samples in one period of the noise; the segment repeats it. */
  periodSamples: z.number().int().min(16).max(4194304).optional(),
  fromHz: frequency.optional(),
  toHz: frequency.optional(),
});
const tone = z.looseObject({
  kind: z.literal('tone'),
  side,
  ...span,
  durationS: z.number().positive().max(7200),
  fHz: frequency,
  levelDbfs: level,
  fadeInS: seconds.optional(),
  fadeOutS: seconds.optional(),
  /** Phase of the sine at the first sample, degrees; 0 when absent. */
  phaseDeg: z.number().optional(),
});
const pulses = z.looseObject({ kind: z.literal('pulses'), side, ...span, levelDbfs: level });

/** One segment of a track. Kinds this version does not know are kept and passed over. */
export const segmentSchema = z.union([
  z.discriminatedUnion('kind', [silence, marker, sweep, noise, tone, pulses]),
  z.looseObject({
    kind: z.string().refine((kind) => !['silence', 'marker', 'sweep', 'noise', 'tone', 'pulses'].includes(kind)),
    ...span,
  }),
]);

/** `F.track.json`, schema `kickpanel.track/1`. */
export const trackSchema = z.looseObject({
  schema: z.literal('kickpanel.track/1'),
  kind: z.string(),
  rateHz: z.number().int().min(8000).max(192_000),
  channels: z.number().int().min(1).max(2),
  durationS: z.number().positive().max(7200),
  segments: z.array(segmentSchema).min(1).max(10_000),
  code: z.number().int().min(0).max(255).optional(),
});

export type Side = 'left' | 'right' | 'both';
export type MarkerSegment = z.infer<typeof marker>;
export type SweepSegment = z.infer<typeof sweep>;
export type NoiseSegment = z.infer<typeof noise>;
export type ToneSegment = z.infer<typeof tone>;
export type PulsesSegment = z.infer<typeof pulses>;
export type TrackSegment = z.infer<typeof segmentSchema>;
export type TrackDescription = z.infer<typeof trackSchema>;

// What `noise` answers, as JSON Schema.
import { z } from 'zod';
import { pathStages } from '../../measurement/noise-hunt/noise-path.ts';
import { testNames } from '../../measurement/noise-hunt/tried.ts';

const takeName = z.enum(['off', 'idle', 'revs', 'systemOff', 'engineAlone', 'turnOn', 'turnOff']);
const level = z.number().describe('dB SPL, or dB re a full-scale square: see reference');
const fHz = z.number();
const heardHz = fHz.nullable().describe('null where it was not heard');
const testName = z.enum(testNames);

const take = z.object({
  take: takeName,
  rpm: z.number().nullable(),
  durationS: z.number(),
  usable: z.boolean(),
  problem: z
    .object({
      code: z.enum(['too-short', 'silent', 'clipped', 'gated', 'too-quiet']),
      message: z.string(),
      mend: z.string(),
    })
    .nullable(),
  aWeightedDb: level.nullable(),
  hissDb: level.nullable().describe('A-weighted, tones taken out'),
  octaves: z.array(z.object({ fHz, levelDb: level })).describe('tones taken out'),
});

const tone = z.object({
  offHz: heardHz,
  idleHz: heardHz,
  revsHz: heardHz,
  class: z.enum(['alternator ripple', 'alternator phase', 'engine or ignition', 'mains', 'fixed', 'cannot tell']),
  order: z.number().nullable().describe('periods per turn of the crankshaft'),
  heardIn: z.enum(['off', 'idle', 'revs']).describe('where it is loudest'),
  levelDb: level,
  bandNoiseDb: level.describe('noise of its third octave'),
  overNoiseDb: z.number(),
  audible: z.boolean(),
  overOffHissDb: z.number().nullable(),
  withinAim: z.boolean().nullable().describe('not above the hiss with the engine off'),
  carsOwn: z.boolean().nullable().describe('as loud with the system off'),
  overlaps: z.boolean().describe('stands where another one would move to'),
  mayBeEngine: z.boolean().describe('its order is a multiple of an order of the engine, which may make it'),
  why: z.string(),
});

/** The answer of `noise`; tests hold real answers against it. */
export const noiseAnswerSchema = z.object({
  schema: z.literal('kickpanel.noise/1'),
  verdict: z.string(),
  reference: z.enum(['spl', 'full-scale']),
  takes: z.array(take),
  tones: z.array(tone).describe('the loudest first'),
  alternatorRatioTimesPolePairs: z.number().nullable(),
  hiss: z
    .object({
      verdict: z.enum(['within', 'above', 'cannot say']),
      hissDb: level,
      overSystemOff: z.array(z.object({ fHz, overDb: z.number() })),
      why: z.string(),
    })
    .nullable(),
  pops: z.array(
    z.object({
      take: z.enum(['turnOn', 'turnOff']),
      atS: z.number(),
      durationS: z.number(),
      levelDb: level,
      overNoiseDb: z.number(),
      atLeast: z.boolean().describe('the recording clips: it is louder than it reads'),
    }),
  ),
  next: z.object({
    hunted: z.enum(['whine', 'hum', 'fixed tone', 'hiss', 'pops']).nullable(),
    entry: z.string().describe('where it enters, as far as the answers go'),
    test: testName.nullable(),
    record: takeName.nullable(),
    next: z.string(),
    reason: z.string(),
    outcomes: z.array(z.object({ answer: z.string(), says: z.string() })),
    cautions: z.array(z.string()),
  }),
  path: z.object({
    stages: z.array(z.object({ stage: z.enum(pathStages), suspect: z.boolean() })),
    cuts: z.array(
      z.object({
        before: z.enum(pathStages),
        test: testName,
        heard: z.enum(['still there', 'silent']).nullable(),
      }),
    ),
    contradiction: z.boolean(),
  }),
  cannotSay: z.array(z.object({ what: z.string(), why: z.string() })),
});

export const noiseJsonSchema = () => ({ ...z.toJSONSchema(noiseAnswerSchema), title: 'the answer of noise' });

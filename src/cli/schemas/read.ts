// The answer of `read` as a schema. The type of the answer is src/measurement/reading.ts; a test holds the two together.
import { z } from 'zod';
import { problemCodes } from '../../measurement/problems.ts';

const curve = z.array(z.number().nullable()).describe('null where nothing can be said');
const grid = z.array(z.number()).describe('rising, Hz');
const side = z.enum(['left', 'right', 'both']);

const response = z.object({
  fHz: grid,
  levelDb: curve.describe('recorded full scale per played full scale, dB; dB SPL where reference is "spl"'),
  phaseDeg: curve.describe("with the driver's own arrival removed, -180 .. 180"),
  valid: z.array(z.boolean()).describe('whether the level at this frequency may be relied on'),
  levelSigmaDb: curve.describe('one standard deviation of the level from noise alone, dB'),
});
const polarity = z.object({
  sign: z
    .union([z.literal(1), z.literal(-1), z.literal(0)])
    .describe('1: a positive sample first moves the recording up'),
  confidence: z.number().min(0).max(1),
  reason: z.string(),
});
const band = z.object({
  lowHz: z.number().nullable(),
  lowSlopeDbPerOctave: z.number().nullable(),
  highHz: z.number().nullable(),
  highSlopeDbPerOctave: z.number().nullable(),
});
const distortion = z.object({
  fHz: grid,
  thdPct: curve,
  h2Pct: curve,
  h3Pct: curve,
  h4Pct: curve,
  h5Pct: curve,
  floorPct: curve.describe('what noise alone would read as'),
  valid: z.array(z.boolean()).describe('false: thdPct is an upper bound only'),
});
const bands = z.object({ fHz: grid, levelDb: curve }).describe('power mean per third octave');
const tone = z.object({
  fHz: z.number(),
  startS: z.number(),
  levelDbfs: z.number().nullable(),
  thdPct: z.number().nullable(),
  floorPct: z.number().nullable(),
});
const results = {
  response: response.exactOptional(),
  arrivalS: z.number().exactOptional().describe('after the time reference, s'),
  arrivalSigmaS: z.number().exactOptional(),
  polarity: polarity.exactOptional(),
  band: band.exactOptional(),
  distortion: distortion.exactOptional(),
  bands: bands.exactOptional(),
};
const stimulus = z.object({
  kind: z.enum(['sweep', 'noise']),
  side,
  levelDbfs: z.number(),
  startS: z.number(),
  relation: z.string().exactOptional().describe('of noise between the sides'),
  ...results,
});
const problem = z.object({
  code: z.enum(problemCodes),
  severity: z
    .enum(['stop', 'limit', 'note'])
    .describe('stop: no result is shown; limit: some are withheld; note: worth knowing'),
  message: z.string(),
  mend: z.string(),
  atS: z.number().exactOptional(),
  values: z.record(z.string(), z.number()).exactOptional(),
});
const quality = z.object({
  usable: z.boolean(),
  verdict: z.string(),
  startS: z.number().exactOptional().describe("where the track's first sample falls in the recording, s"),
  driftPpm: z.number().exactOptional().describe('positive when the recording runs long'),
  driftSigmaPpm: z.number().exactOptional(),
  peakDbfs: z.number().nullable(),
  input: z.number().int().describe('counted from 1'),
  inputs: z.number().int(),
  rateHz: z.number(),
  bits: z.number(),
  durationS: z.number(),
  snr: z.object({ fHz: grid, db: curve }).exactOptional(),
  problems: z.array(problem),
});
const withheld = z.object({ field: z.string(), code: z.string(), message: z.string() });

/** `kickpanel.read/1`. Later versions may add fields. */
export const readSchema = z.object({
  schema: z.literal('kickpanel.read/1'),
  reference: z.enum(['full-scale', 'spl']),
  quality,
  ...results,
  leftMinusRightS: z.number().exactOptional(),
  leftMinusRightSigmaS: z.number().exactOptional(),
  pairSign: z
    .object({
      sign: z.union([z.literal(1), z.literal(-1), z.literal(0)]),
      sameOverOppositeDb: z.number().nullable(),
      reason: z.string(),
    })
    .exactOptional()
    .describe('a hint whether left and right pull together in the bass'),
  stimuli: z.array(stimulus).exactOptional(),
  tones: z.array(tone).exactOptional(),
  withheld: z.array(withheld).describe('what is absent, and why'),
});

const fileNote = z.object({
  code: z.string(),
  message: z.string(),
  where: z.string().exactOptional(),
  values: z.record(z.string(), z.number()).exactOptional(),
});

/** What the command prints: the reading, what was odd about the files themselves, and what was written. */
export const readAnswerSchema = readSchema.extend({
  fileNotes: z.array(fileNote).exactOptional(),
  written: z.array(z.string()).exactOptional().describe('files written because an option asked for them'),
});

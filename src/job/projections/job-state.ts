// A job as its entries make it: the form that the doors show.
import { z } from 'zod';
import { checkStages, foundSchema } from '../check-in/check-forms.ts';
import { idSchema, sha256Schema, timeSchema } from '../entries.ts';
import {
  bodyTypes,
  correctionSchema,
  coverStateSchema,
  inputSchema,
  levelReferenceSchema,
  personalKinds,
  personalReferenceSchema,
  photoTypes,
} from '../entry-kinds.ts';
import { givenEvidenceSchema } from '../hold-points/given-evidence.ts';
import { heardSchema } from '../walk/heard-forms.ts';
import { jobPlanSchema } from './job-plan.ts';

const stamp = { entry: idSchema, when: timeSchema, who: z.string() };

const noteSchema = z.object({ ...stamp, text: z.string(), about: z.string().exactOptional() });

const takeSchema = z.object({
  ...stamp,
  take: idSchema,
  name: z.string(),
  recording: sha256Schema,
  bytes: z.number(),
  track: sha256Schema,
  microphone: idSchema.exactOptional(),
  side: z.enum(['left', 'right', 'both']).exactOptional(),
  place: z.string().exactOptional(),
  covers: z.array(coverStateSchema),
  level: levelReferenceSchema,
  input: inputSchema.exactOptional(),
  kept: z.boolean(),
  notes: z.array(noteSchema),
});

const trackSchema = z.object({
  ...stamp,
  track: sha256Schema,
  kind: z.string(),
  durationS: z.number(),
  name: z.string().exactOptional(),
  code: z.number().exactOptional(),
});

const microphoneSchema = z.object({
  ...stamp,
  microphone: idSchema,
  name: z.string(),
  fullScaleSplDb: z.number().exactOptional(),
  correction: correctionSchema.exactOptional(),
  method: z.string().exactOptional(),
});

const photoSchema = z.object({
  ...stamp,
  photo: sha256Schema,
  bytes: z.number(),
  type: z.enum(photoTypes),
  name: z.string(),
});

const comparisonSchema = z.object({ ...stamp, takes: z.array(idSchema), note: z.string().exactOptional() });

const undoableSchema = z.object({ ...stamp, kind: z.string(), says: z.string() });

export const jobStateSchema = z.object({
  id: idSchema,
  name: z.string(),
  number: z.string().exactOptional(),
  purpose: z.enum(['car', 'shop']),
  created: z.object(stamp).nullable(),
  changedWhen: timeSchema.nullable(),
  vehicle: z.object({
    bodyType: z.enum(bodyTypes).exactOptional(),
    name: z.string().exactOptional(),
    steering: z.enum(['left', 'right']).exactOptional(),
  }),
  personal: z.partialRecord(z.enum(personalKinds), personalReferenceSchema),
  /** Records erased on request: their references stay in the journal, their content is gone. */
  erasedRecords: z.array(idSchema),
  covers: z.array(
    coverStateSchema.extend({
      since: timeSchema,
      /** Who fastened it over what was not proven, and why. */
      passedOver: z
        .object({ ...stamp, name: z.string(), why: z.string(), holdPoints: z.array(z.string()) })
        .exactOptional(),
    }),
  ),
  /** In the order in which they were recorded, undone ones left out. */
  takes: z.array(takeSchema),
  tracks: z.array(trackSchema),
  /** The newest calibration of each microphone. */
  microphones: z.array(microphoneSchema),
  /** As they are called now, each once. */
  photos: z.array(photoSchema),
  /** Of the car as it came and at Refit, in the order in which they were made. */
  checks: z.array(z.object({ ...stamp, at: z.enum(checkStages), check: z.string(), found: foundSchema })),
  notes: z.array(noteSchema),
  plan: jobPlanSchema,
  /** For hold points, in the order in which it was given. */
  evidence: z.array(givenEvidenceSchema),
  /** In the channel walk, in the order in which it was heard. */
  heard: z.array(z.object({ ...stamp, sound: heardSchema })),
  comparisons: z.array(comparisonSchema),
  /** What the next undo takes back. */
  undoable: undoableSchema.nullable(),
  entries: z.number().int(),
  undone: z.number().int(),
  /** Entries of kinds or versions that this version does not understand; they are kept and passed on. */
  notUnderstood: z.number().int(),
});

export type JobState = z.infer<typeof jobStateSchema>;

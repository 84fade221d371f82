// The kinds of entry that this version understands, each with the form of its data.
import { z } from 'zod';
import { planChangeSchema } from '../plan/changes.ts';
import { coverStates } from '../plan/vehicle-parts.ts';
import { checkStages, foundSchema } from './check-in/check-forms.ts';
import { idSchema, sha256Schema, timeSchema } from './entries.ts';
import { evidenceSchema, expectedSchema } from './hold-points/evidence-forms.ts';
import { severities, valuesSchema } from './rules/rule.ts';
import { heardSchema } from './walk/heard-forms.ts';

const name = z.string().trim().min(1).max(120);
const words = z.string().trim().min(1).max(10_000);

/** Bodies that a plan view can be drawn for, and whatever else stands in the bay. */
export const bodyTypes = [
  'coupe',
  'hatchback',
  'sedan',
  'estate',
  'pickup',
  'van',
  'roadster',
  'wagon',
  'other',
] as const;

/** What may be known of a person; it stands in a record that can be erased, never in an entry. */
export const vehiclePersonalKinds = ['owner', 'plate', 'phone'] as const;
/** With what the owner said is wrong, which a check of the car holds. */
export const personalKinds = [...vehiclePersonalKinds, 'complaint'] as const;

/** What a photo is, by its content. */
export const photoTypes = ['jpeg', 'png'] as const;
export type PhotoType = (typeof photoTypes)[number];

/** Where a personal record stands, and the salted hash that proves it. */
export const personalReferenceSchema = z.object({ record: idSchema, hash: sha256Schema });

export const coverStateSchema = z.object({ cover: idSchema, state: z.enum(coverStates) });

const coverList = z
  .array(coverStateSchema)
  .max(200)
  .refine((list) => new Set(list.map(({ cover }) => cover)).size === list.length, 'each cover once');

/** What levels in a take are relative to; `fullScaleSplDb` is the sound pressure level that full scale stands for. */
export const levelReferenceSchema = z.object({
  reference: z.enum(['full-scale', 'spl']),
  fullScaleSplDb: z.number().min(40).max(200).exactOptional(),
});

/** The recording device as it described itself when the take was made. */
export const inputSchema = z.looseObject({
  label: z.string().max(200).exactOptional(),
  /** Counted from 1. */
  channel: z.number().int().min(1).max(64).exactOptional(),
  rateHz: z.number().int().min(4000).max(768_000).exactOptional(),
  channels: z.number().int().min(1).max(64).exactOptional(),
});

/** A microphone's deviation over frequency: measured minus true. */
export const correctionSchema = z
  .object({
    fHz: z.array(z.number().positive().max(192_000)).min(2).max(20_000),
    deviationDb: z.array(z.number().min(-60).max(60)).min(2).max(20_000),
  })
  .refine(({ fHz, deviationDb }) => fHz.length === deviationDb.length, 'one deviation for each frequency')
  .refine(({ fHz }) => fHz.every((value, n) => n === 0 || value > fHz[n - 1]), 'frequencies must rise');

/** Covers fastened over what was not proven: who answers for it, why, and what it was. */
const passedOverSchema = z.object({
  name: z.string().trim().min(1).max(80),
  why: words,
  open: z.array(z.object({ cover: idSchema, holdPoints: z.array(z.string().max(120)).min(1).max(1000) })).min(1),
});

/** One change of a plan, with the last change of that part that its author had seen. */
export const seenPlanChangeSchema = z.object({
  change: planChangeSchema,
  seen: z.object({ entry: idSchema, when: timeSchema }).exactOptional(),
});

/** The form of `data` by kind, in its newest version. */
export const entryData = {
  'job-created': z.object({
    name,
    number: z.string().trim().max(40).exactOptional(),
    purpose: z.enum(['car', 'shop']),
  }),
  'job-renamed': z.object({ name, number: z.string().trim().max(40).exactOptional() }),
  'vehicle-described': z.object({
    bodyType: z.enum(bodyTypes).exactOptional(),
    /** What the vehicle is, never whose: that is personal. */
    name: name.exactOptional(),
    steering: z.enum(['left', 'right']).exactOptional(),
    personal: z.partialRecord(z.enum(vehiclePersonalKinds), personalReferenceSchema).exactOptional(),
  }),
  'covers-changed': z.object({ covers: coverList.min(1), passedOver: passedOverSchema.exactOptional() }),
  'evidence-given': z.object({
    /** What it proves, by name, such as "lead L07 connected"; a measured value is of one. */
    holdPoints: z.array(z.string().min(1).max(120)).min(1).max(300),
    evidence: evidenceSchema,
    /** What a meter should have read, as the plan was. */
    expected: expectedSchema.exactOptional(),
  }),
  'track-made': z.object({
    track: sha256Schema,
    kind: z.string().max(40),
    durationS: z.number().positive(),
    name: name.exactOptional(),
    code: z.number().int().min(0).max(255).exactOptional(),
  }),
  'take-recorded': z.object({
    take: idSchema,
    name,
    recording: sha256Schema,
    bytes: z.number().int().positive(),
    /** The description of the track that was playing. */
    track: sha256Schema,
    microphone: idSchema.exactOptional(),
    side: z.enum(['left', 'right', 'both']).exactOptional(),
    /** Where a driver sits, or where the microphone stood. */
    place: name.exactOptional(),
    covers: coverList,
    level: levelReferenceSchema,
    input: inputSchema.exactOptional(),
  }),
  'take-noted': z.object({
    take: idSchema,
    note: words.exactOptional(),
    name: name.exactOptional(),
    /** Whether the take counts; one that is not kept stays readable. */
    kept: z.boolean().exactOptional(),
  }),
  'take-compared': z.object({ takes: z.array(idSchema).min(2).max(20), note: words.exactOptional() }),
  'microphone-calibrated': z.object({
    microphone: idSchema,
    name,
    fullScaleSplDb: z.number().min(40).max(200).exactOptional(),
    correction: correctionSchema.exactOptional(),
    /** Such as "calibrator, 94 dB at 1 kHz". */
    method: name.exactOptional(),
  }),
  'photo-attached': z.object({
    /** The hash of the file, by which the photo is called. */
    photo: sha256Schema,
    bytes: z.number().int().positive(),
    type: z.enum(photoTypes),
    /** What it shows. */
    name,
  }),
  checked: z.object({
    at: z.enum(checkStages),
    /** By name, such as "resting-volts" or "mark-3"; a name that a newer version gave is kept. */
    check: z.string().min(1).max(60),
    found: foundSchema,
  }),
  'note-added': z.object({ text: words, about: name.exactOptional() }),
  'plan-changed': z.object({
    changes: z.array(seenPlanChangeSchema).min(1).max(2000),
    /** The template that the changes came from. */
    template: name.exactOptional(),
  }),
  'sound-heard': z.object({ sound: heardSchema }),
  'finding-overridden': z.object({
    /** The rule, such as "E-06", and the place that it spoke of. */
    finding: z.string().min(1).max(20),
    place: z.string().min(1).max(200),
    severity: z.enum(severities),
    /** What was found when it was accepted. */
    message: words,
    values: valuesSchema,
    why: words,
  }),
  undone: z.object({ entry: idSchema, why: words.exactOptional() }),
  'personal-erased': z.object({ records: z.array(idSchema).min(1).max(100), why: words.exactOptional() }),
} as const;

export type EntryKind = keyof typeof entryData;
export type EntryData<Kind extends EntryKind> = z.infer<(typeof entryData)[Kind]>;

export type PersonalKind = (typeof personalKinds)[number];
export type CoverState = z.infer<typeof coverStateSchema>;

/** The newest version of each kind's data. A kind that changes its form rises by one and gets a step in `lifts.ts`. */
export const entryVersions: Record<EntryKind, number> = {
  'job-created': 1,
  'job-renamed': 1,
  'vehicle-described': 1,
  'covers-changed': 2,
  'evidence-given': 2,
  'track-made': 1,
  'take-recorded': 1,
  'take-noted': 1,
  'take-compared': 1,
  'microphone-calibrated': 1,
  'photo-attached': 1,
  checked: 1,
  'note-added': 1,
  'plan-changed': 1,
  'sound-heard': 1,
  'finding-overridden': 1,
  undone: 1,
  'personal-erased': 1,
};

export function isKnownKind(kind: string): kind is EntryKind {
  return Object.hasOwn(entryData, kind);
}

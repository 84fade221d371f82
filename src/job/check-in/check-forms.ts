// What may be said of one check of the car as it came or as it goes back.
import { z } from 'zod';
import { idSchema, sha256Schema } from '../entries.ts';

/** When the car is looked over: as it came, and again with the covers back. */
export const checkStages = ['arrive', 'refit'] as const;
export type CheckStage = (typeof checkStages)[number];

/** What somebody who tried it found. `not-fitted`: the car has no such thing. */
export const findings = ['ok', 'fault', 'not-tried', 'not-fitted'] as const;

/** Units of the meters used here, and how many of the plain one each is. */
const units = { V: ['V', 1], mV: ['V', 1e-3], A: ['A', 1], mA: ['A', 1e-3] } as const;
export type CheckUnit = keyof typeof units;
export const checkUnits = Object.keys(units) as [CheckUnit, ...CheckUnit[]];
export type PlainCheckUnit = (typeof units)[CheckUnit][0];

/** A value in its plain unit: 24 mA are 0.024 A. */
export function plainCheckValue(value: number, unit: CheckUnit): { value: number; unit: PlainCheckUnit } {
  const [plain, times] = units[unit];
  return { value: value * times, unit: plain };
}

const words = z.string().trim().min(1).max(500).exactOptional();

/** What was found, without what is personal. */
const seen = z.object({ how: z.literal('seen'), found: z.enum(findings), words });
const measured = z.object({
  how: z.literal('measured'),
  value: z.number().min(0).max(1e6),
  unit: z.enum(checkUnits),
  /** Minutes since the car was locked, or since its engine stopped. */
  afterMin: z
    .number()
    .min(0)
    .max(7 * 24 * 60)
    .exactOptional(),
  words,
});
const photo = z.object({ how: z.literal('photo'), photo: sha256Schema, words });
const take = z.object({ how: z.literal('take'), take: idSchema, words });

/** In an entry. What somebody said stands in a personal record, by which it can be erased. */
export const foundSchema = z.discriminatedUnion('how', [
  seen,
  measured,
  photo,
  take,
  z.object({ how: z.literal('said'), personal: z.object({ record: idSchema, hash: sha256Schema }) }),
]);

/** In a wish: the words themselves, which go into the personal record. */
export const wishedSchema = z.discriminatedUnion('how', [
  seen,
  measured,
  photo,
  take,
  z.object({ how: z.literal('said'), words: z.string().trim().min(1).max(2000) }),
]);

export type Found = z.infer<typeof foundSchema>;
export type Wished = z.infer<typeof wishedSchema>;
export type FoundHow = Found['how'];

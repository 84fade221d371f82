// What may be given as evidence for a hold point: a measured value, a take, a photo, or somebody's word with a name.
import { z } from 'zod';
import { idSchema, sha256Schema } from '../entries.ts';
import { said } from '../rules/words.ts';

/** Units of a meter, how many of the plain unit one is, and how it is written beside a number. */
const units = {
  V: ['V', 1, 'V'],
  mV: ['V', 1e-3, 'mV'],
  A: ['A', 1, 'A'],
  ohm: ['ohm', 1, 'ohm'],
  mOhm: ['ohm', 1e-3, 'mOhm'],
  kOhm: ['ohm', 1e3, 'kohm'],
  MOhm: ['ohm', 1e6, 'Mohm'],
} as const;

export type EvidenceUnit = keyof typeof units;
export const evidenceUnits = Object.keys(units) as [EvidenceUnit, ...EvidenceUnit[]];
export const plainUnits = ['V', 'A', 'ohm'] as const;
export type PlainUnit = (typeof plainUnits)[number];

const amount = z.union([z.number().min(0).max(1e9), z.literal('open')]);
export type Amount = z.infer<typeof amount>;

/** What a meter should read, both ends counted in; `open` is above every number. */
export const expectedSchema = z.object({
  low: amount,
  high: amount,
  target: amount.nullable().describe('where it is best'),
  unit: z.enum(plainUnits),
});

const personName = z.string().trim().min(1).max(80);

export const evidenceSchema = z.discriminatedUnion('how', [
  z.object({
    how: z.literal('measured'),
    value: amount,
    unit: z.enum(evidenceUnits),
    /** What the meter shows with its probes together. */
    probesOhm: z.number().min(0).max(10).exactOptional(),
    temperatureC: z.number().min(-40).max(200).exactOptional(),
    /** Drivers that were unplugged for it. */
    without: z.array(idSchema).max(50).exactOptional(),
    /** Of the tone that played, below full scale; that of the gain sheet if absent. */
    toneDbfs: z.number().min(-80).max(0).exactOptional(),
    /** Up to which frequency the meter is honest, as the gain sheet was made for; that of a cheap one if absent. */
    meterHz: z.number().min(50).max(1_000_000).exactOptional(),
  }),
  z.object({ how: z.literal('take'), take: idSchema, words: z.string().trim().min(1).max(500).exactOptional() }),
  z.object({
    how: z.literal('photo'),
    /** A photo of the job, by its hash. */
    photo: sha256Schema,
    words: z.string().trim().min(1).max(500).exactOptional(),
  }),
  z.object({
    how: z.literal('seen'),
    /** Who saw it and found it right. */
    name: personName,
    words: z.string().trim().min(1).max(500).exactOptional(),
  }),
]);

export type Expected = z.infer<typeof expectedSchema>;
export type Evidence = z.infer<typeof evidenceSchema>;
export type EvidenceHow = Evidence['how'];
export type Measured = Extract<Evidence, { how: 'measured' }>;

/** A measured value in its plain unit: 3400 mOhm is 3.4 ohm. */
export function plainValue({ value, unit }: Pick<Measured, 'value' | 'unit'>): { value: Amount; unit: PlainUnit } {
  const [plain, times] = units[unit];
  return { value: value === 'open' ? value : value * times, unit: plain };
}

/** The unit in which a person reads so many of the plain one, joints in mOhm and insulation in kohm, and its size. */
export function suitedUnit(value: number, plain: PlainUnit): { times: number; word: string } {
  const small: EvidenceUnit = value > 0 && value < 0.1 ? 'mOhm' : 'ohm';
  const large: EvidenceUnit = value < 1e6 ? 'kOhm' : 'MOhm';
  const [, times, word] = units[plain !== 'ohm' ? plain : value < 1000 ? small : large];
  return { times, word };
}

/** A value of the plain unit in the unit that suits it: 0.0051 ohm are "5.1 mOhm". */
export function plainWords(value: Amount, plain: PlainUnit): string {
  if (value === 'open') return 'open';
  const { times, word } = suitedUnit(value, plain);
  return `${said(value / times)} ${word}`;
}

/** A value as it was given, not rounded: "3400 mOhm", "120 kohm", "open". */
export const givenWords = ({ value, unit }: Pick<Measured, 'value' | 'unit'>): string =>
  value === 'open' ? value : `${value} ${units[unit][2]}`;

const size = (value: Amount) => (value === 'open' ? Number.POSITIVE_INFINITY : value);
/** What the rounding of a unit may take away. */
const hair = 1e-9;

/** Whether a value in the plain unit lies within what is expected. */
export function isWithin(value: Amount, { low, high }: Expected): boolean {
  const read = size(value);
  return read >= size(low) * (1 - hair) && (high === 'open' || read <= high * (1 + hair));
}

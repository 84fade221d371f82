// What the fields of a plan may hold. A value that no car can have is refused where it enters; one that is merely odd is
// left to the rules.
import { z } from 'zod';

/** A short, stable name for a part: letters, digits, "-" and "_". It never starts with "_", so no object key is touched. */
export const partId = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$/, 'an id is 1 to 32 letters, digits, "-" or "_"');

/** One terminal of a part: `A/1` is channel 1 of amplifier A, `S1/2` the second coil of driver S1. */
export const terminal = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,31}\/[A-Za-z0-9][A-Za-z0-9_-]{0,31}$/, 'a terminal is written PART/TERMINAL');

export const name = z.string().trim().min(1).max(120);
export const note = z.string().trim().max(2000);

/** A number in a range; text and infinities are refused. */
const between = (min: number, max: number) => z.number().min(min).max(max);

export const volts = between(0.001, 1000);
export const amperes = between(0, 5000);
export const watts = between(0.01, 50_000);
export const ohms = between(0.01, 100_000);
export const metres = between(0, 100);
export const millimetres = between(0, 10_000);
export const hertz = between(1, 200_000);
export const decibels = between(-200, 200);
export const areaMm2 = between(0.05, 1000);
export const range = between;

/** A list of ids, each once. */
export const idList = z
  .array(partId)
  .max(200)
  .refine((list) => new Set(list).size === list.length, 'each id once');

// Wishes from words of the call or from a file: what is wrong with one is said of the field.
import { z } from 'zod';
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { commandSchema, requestSchema, type Command as Wish } from '../../job/commands/commands.ts';
import { type Entry, entrySchema } from '../../job/entries.ts';

function issuesOf(error: z.ZodError, where: string): Issue[] {
  return error.issues.map(({ path, message }) => ({
    code: 'wish-invalid',
    message: `${path.length === 0 ? 'This' : path.join('.')} is not as it must be: ${message}.`,
    where,
    mend: 'Mend this field; GET /api/openapi.json of "kickpanel serve" says what each wish takes.',
  }));
}

/** A wish made of what was given; fields that were not given are left out. */
export function wishFrom(fields: Record<string, unknown>, where: string): Result<Wish> {
  const given = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
  const wish = commandSchema.safeParse(given);
  return wish.success ? success(wish.data) : failure(...issuesOf(wish.error, where));
}

const looseRequest = requestSchema.extend({
  id: requestSchema.shape.id.exactOptional(),
  who: z.string().exactOptional(),
});

/** What a file may ask for: wishes, with or without id and person, or entries that another device wrote. */
export type Asked = { requests: z.infer<typeof looseRequest>[] } | { entries: Entry[] };

const askedSchema = z.union([
  z.object({ requests: z.array(looseRequest).min(1) }),
  z.object({ entries: z.array(entrySchema).min(1) }),
  commandSchema.transform((wish) => ({ requests: [{ wish }] })),
  z
    .array(commandSchema)
    .min(1)
    .transform((wishes) => ({ requests: wishes.map((wish) => ({ wish })) })),
]);

/** What JSON text asks for. */
export function askedIn(text: string, where: string): Result<Asked> {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    const mend =
      'Give one wish such as {"command":"addNote","text":"..."}, a list of them, {"requests":[...]} or {"entries":[...]}.';
    return failure({ code: 'not-json', message: 'This is not JSON.', where, mend });
  }
  // Unions say little about what is wrong, so the form that was meant is tried alone.
  const single = typeof data === 'object' && data !== null && 'command' in data ? commandSchema.safeParse(data) : null;
  if (single?.success === false) return failure(...issuesOf(single.error, where));
  const asked = askedSchema.safeParse(data);
  return asked.success ? success(asked.data as Asked) : failure(...issuesOf(asked.error, where));
}

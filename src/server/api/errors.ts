// Bad news as every route tells it.
import { z } from '@hono/zod-openapi';

const issueSchema = z.object({
  code: z.string(),
  message: z.string(),
  where: z.string().exactOptional(),
  mend: z.string().exactOptional(),
});

export const errorSchema = z
  .object({ error: issueSchema.extend({ issues: z.array(issueSchema).exactOptional() }) })
  .openapi('Error', {
    description: 'What is wrong, where, and how to mend it; `issues` has all when there are several.',
  });

export type ErrorBody = z.infer<typeof errorSchema>;

const content = { 'application/json': { schema: errorSchema } };

/** What may go wrong with any call. */
export const errorResponses = {
  400: { description: 'the call cannot be understood', content },
  403: { description: 'a write from a page of another origin', content },
  404: { description: 'no such thing', content },
  409: { description: 'refused as the job stands', content },
  413: { description: 'too large', content },
  415: { description: 'not the kind of content this takes', content },
  422: { description: 'the content is not what it should be', content },
  500: { description: 'a fault of ours', content },
  503: { description: 'the answer was cancelled or cannot be given now', content },
  507: { description: 'the disk is full or cannot be written; nothing was kept', content },
};

export type ErrorStatus = keyof typeof errorResponses;

/** A JSON answer in the form that a route's `responses` take. */
export function answers<Schema extends z.ZodType>(schema: Schema, description: string) {
  return { description, content: { 'application/json': { schema } } };
}

/** A JSON body in the form that a route's `request` takes. */
export function takes<Schema extends z.ZodType>(schema: Schema) {
  return { required: true, content: { 'application/json': { schema } } };
}

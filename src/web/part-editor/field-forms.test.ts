import { expect, test } from 'vitest';
import { z } from 'zod';
import { partKinds, partSchemas } from '../../plan/plan.ts';
import { fieldForms } from './field-forms.ts';

/** What a field holds, without that it may be absent. */
function bare(schema: z.ZodType): z.ZodType {
  return schema instanceof z.ZodOptional || schema instanceof z.ZodExactOptional
    ? bare(schema.unwrap() as z.ZodType)
    : schema;
}

test('every number, choice and yes or no that a plan may hold can be typed', () => {
  const missing = partKinds.flatMap((kind) =>
    // A gauge is typed where the area is.
    Object.entries(partSchemas[kind].shape as Record<string, z.ZodType>)
      .filter(([, schema]) => [z.ZodNumber, z.ZodEnum, z.ZodBoolean].some((type) => bare(schema) instanceof type))
      .flatMap(([field]) => (field in fieldForms[kind] || field === 'gauge' ? [] : [`${kind}.${field}`])),
  );
  expect(missing).toEqual([]);
});

// What the parts of `job` that prove things answer, as JSON Schema.
import { z } from 'zod';
import { chainedEntrySchema } from '../../job/entries.ts';
import { gainSheetSchema } from '../../job/gains/gain-sheet.ts';
import { coverReportSchema } from '../../job/hold-points/behind-cover.ts';
import { holdPointSchema } from '../../job/hold-points/hold-points.ts';
import { shortestTestsSchema } from '../../job/hold-points/shortest-tests.ts';
import { jobStateSchema } from '../../job/projections/job-state.ts';
import { readBackSchema } from '../../job/settings/read-back.ts';
import { settingSheetSchema } from '../../job/settings/setting-sheet.ts';
import { coverStates } from '../../plan/vehicle-parts.ts';

const titled = (schema: z.ZodType, title: string): object => ({ ...z.toJSONSchema(schema, { io: 'input' }), title });

const appended = z.array(chainedEntrySchema).describe('what was written into the journal');

const holdPoints = z.object({
  schema: z.literal('kickpanel.hold-points/1'),
  job: z.string().nullable(),
  counts: z.object({ open: z.number(), closed: z.number(), reOpened: z.number() }),
  holdPoints: z.array(holdPointSchema).describe('in the order of the stages'),
  covers: z.array(coverReportSchema),
  shortest: shortestTestsSchema.describe('clears every open one'),
});
export const holdPointsJsonSchema = () => titled(holdPoints, 'kickpanel.hold-points/1');

const issue = z.object({
  code: z.string(),
  message: z.string(),
  where: z.string().exactOptional(),
  mend: z.string().exactOptional(),
});

const cover = z.object({
  schema: z.literal('kickpanel.cover/1'),
  job: z.string(),
  cover: z.string().describe('letter on the drawing, else id in the plan'),
  state: z.enum(coverStates).describe('as it was to be set'),
  set: z.boolean().describe('false: refused, with status 1; nothing was written'),
  issues: z.array(issue),
  open: z.array(holdPointSchema).describe('unproven behind it'),
  shortest: shortestTestsSchema.describe('clears them'),
  appended,
});
export const coverJsonSchema = () => titled(cover, 'kickpanel.cover/1');

const evidence = z.object({
  schema: z.literal('kickpanel.evidence/1'),
  job: z.string(),
  holdPoints: z.array(holdPointSchema).describe('those that it was given for, as they are now'),
  appended,
});
export const evidenceJsonSchema = () => titled(evidence, 'kickpanel.evidence/1');

const attached = z.object({
  schema: z.literal('kickpanel.attached/1'),
  job: z.string(),
  photos: z.array(jobStateSchema.shape.photos.element).describe('those attached, as the job has them now'),
  appended,
});
export const attachedJsonSchema = () => titled(attached, 'kickpanel.attached/1');

const gains = gainSheetSchema.extend({ schema: z.literal('kickpanel.gains/1'), job: z.string().nullable() });
export const gainsJsonSchema = () => titled(gains, 'kickpanel.gains/1');

const settings = settingSheetSchema.extend({
  schema: z.literal('kickpanel.settings/1'),
  job: z.string().nullable(),
  readBack: readBackSchema.nullable().describe('what was read back, held against the sheet'),
});
export const settingsJsonSchema = () => titled(settings, 'kickpanel.settings/1');

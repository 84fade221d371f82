// What a person may wish for in a job. A wish is checked against the job as it stands and becomes entries, or is refused.
import { z } from 'zod';
import { type PlanChange, planChangeSchema } from '../../plan/changes.ts';
import { partId } from '../../plan/fields.ts';
import { partKinds } from '../../plan/plan.ts';
import { templateNames } from '../../plan/templates/templates.ts';
import { checkStages, wishedSchema } from '../check-in/check-forms.ts';
import { idSchema, timeSchema } from '../entries.ts';
import { entryData } from '../entry-kinds.ts';

const personalText = z.string().trim().min(1).max(500);

const createJob = z.object({
  command: z.literal('createJob'),
  name: entryData['job-created'].shape.name,
  number: entryData['job-created'].shape.number,
  purpose: z.enum(['car', 'shop']).default('car'),
});
const renameJob = z.object({ command: z.literal('renameJob'), ...entryData['job-renamed'].shape });
const describeVehicle = z.object({
  command: z.literal('describeVehicle'),
  bodyType: entryData['vehicle-described'].shape.bodyType,
  name: entryData['vehicle-described'].shape.name,
  steering: entryData['vehicle-described'].shape.steering,
  owner: personalText.exactOptional(),
  plate: personalText.exactOptional(),
  phone: personalText.exactOptional(),
});
const changeCovers = z.object({
  command: z.literal('changeCovers'),
  covers: entryData['covers-changed'].shape.covers,
  /**
   * Somebody fastens them now, whatever was known of them before. Without it a cover of which nobody has said anything is
   * taken to be as the car came.
   */
  fastening: z.literal(true).exactOptional(),
  /** Fastens them over what is not proven: who answers for it, and why. */
  passOver: z
    .object({ name: z.string().trim().min(1).max(80), why: z.string().trim().min(1).max(10_000) })
    .exactOptional(),
});
const giveEvidence = z.object({
  command: z.literal('giveEvidence'),
  holdPoints: entryData['evidence-given'].shape.holdPoints,
  evidence: entryData['evidence-given'].shape.evidence,
});
const keepTrack = z.object({ command: z.literal('keepTrack'), ...entryData['track-made'].shape });
const recordTake = z.object({
  command: z.literal('recordTake'),
  ...entryData['take-recorded'].shape,
  /** By default the id of the entry. */
  take: idSchema.exactOptional(),
  /** By default the covers as the job knows them. */
  covers: entryData['take-recorded'].shape.covers.exactOptional(),
  /** By default full scale, or the microphone's calibration. */
  level: entryData['take-recorded'].shape.level.exactOptional(),
});
const noteTake = z.object({ command: z.literal('noteTake'), ...entryData['take-noted'].shape });
const compareTakes = z.object({ command: z.literal('compareTakes'), ...entryData['take-compared'].shape });
const calibrateMicrophone = z.object({
  command: z.literal('calibrateMicrophone'),
  ...entryData['microphone-calibrated'].shape,
});
/** A photo whose file is kept already. */
const attachPhoto = z.object({ command: z.literal('attachPhoto'), ...entryData['photo-attached'].shape });

/** One check of the car as it came, or at Refit; words of the owner go into a record that can be erased. */
const recordCheck = z.object({
  command: z.literal('recordCheck'),
  at: z.enum(checkStages),
  check: entryData.checked.shape.check,
  found: wishedSchema,
});

const addNote = z.object({ command: z.literal('addNote'), ...entryData['note-added'].shape });
/** The value is checked as a part of its kind, under the id given. */
const setPlanPart = z.object({
  command: z.literal('setPlanPart'),
  part: z.enum(partKinds),
  id: partId,
  value: z.record(z.string(), z.unknown()),
});
const removePlanPart = z.object({ command: z.literal('removePlanPart'), part: z.enum(partKinds), id: partId });
/** Several changes as one, such as a plan from a file or what clears a finding. */
const changePlan = z.object({
  command: z.literal('changePlan'),
  changes: z
    .array(planChangeSchema as z.ZodType<PlanChange>)
    .min(1)
    .max(2000),
});
const startPlanFromTemplate = z.object({
  command: z.literal('startPlanFromTemplate'),
  template: z.enum(templateNames),
  /** Takes out what the plan has. */
  replace: z.boolean().exactOptional(),
});
const overrideFinding = z.object({
  command: z.literal('overrideFinding'),
  /** The rule, such as "E-06", and the place as the finding says it. */
  finding: entryData['finding-overridden'].shape.finding,
  place: entryData['finding-overridden'].shape.place,
  why: entryData['finding-overridden'].shape.why,
});
/** What was heard in the channel walk, or what a test of it gave. */
const hearSound = z.object({ command: z.literal('hearSound'), ...entryData['sound-heard'].shape });
const undo = z.object({ command: z.literal('undo'), ...entryData.undone.shape });
const erasePersonal = z.object({
  command: z.literal('erasePersonal'),
  /** By default everything known of the person. */
  records: entryData['personal-erased'].shape.records.exactOptional(),
  why: entryData['personal-erased'].shape.why,
});

export const commandSchema = z.discriminatedUnion('command', [
  createJob,
  renameJob,
  describeVehicle,
  changeCovers,
  giveEvidence,
  keepTrack,
  recordTake,
  noteTake,
  compareTakes,
  calibrateMicrophone,
  attachPhoto,
  recordCheck,
  addNote,
  setPlanPart,
  removePlanPart,
  changePlan,
  startPlanFromTemplate,
  overrideFinding,
  hearSound,
  undo,
  erasePersonal,
]);

/** The last change of a part of the plan that the author of a wish had seen. */
const seenPartSchema = z.object({ part: z.enum(partKinds), id: partId, entry: idSchema, when: timeSchema });

/** A wish with who has it; the id makes it safe to send again. `when` and `device` are those of the store if absent. */
export const requestSchema = z.object({
  id: idSchema,
  who: z.string().trim().min(1).max(80),
  when: timeSchema.exactOptional(),
  /** Of a wish that comes late: what its author had seen of the parts it changes. By default all that the job holds. */
  seen: z.array(seenPartSchema).max(2000).exactOptional(),
  wish: commandSchema,
});

export type Command = z.infer<typeof commandSchema>;
export type CommandName = Command['command'];
export type CommandOf<Name extends CommandName> = Extract<Command, { command: Name }>;
export type SeenPart = z.infer<typeof seenPartSchema>;
export type Request = z.infer<typeof requestSchema>;

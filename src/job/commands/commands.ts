// What a person may wish for in a job. A wish is checked against the job as it stands and becomes entries, or is refused.
import { z } from 'zod';
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
const changeCovers = z.object({ command: z.literal('changeCovers'), ...entryData['covers-changed'].shape });
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
const addNote = z.object({ command: z.literal('addNote'), ...entryData['note-added'].shape });
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
  keepTrack,
  recordTake,
  noteTake,
  compareTakes,
  calibrateMicrophone,
  addNote,
  undo,
  erasePersonal,
]);

/** A wish with who has it; the id makes it safe to send again. `when` and `device` are those of the store if absent. */
export const requestSchema = z.object({
  id: idSchema,
  who: z.string().trim().min(1).max(80),
  when: timeSchema.exactOptional(),
  wish: commandSchema,
});

export type Command = z.infer<typeof commandSchema>;
export type CommandName = Command['command'];
export type CommandOf<Name extends CommandName> = Extract<Command, { command: Name }>;
export type Request = z.infer<typeof requestSchema>;

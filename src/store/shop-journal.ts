// What belongs to the shop and to no job: a journal of its own, with the same promises as any other.
import type { Result } from '../base/result.ts';
import type { CommandOf } from '../job/commands/commands.ts';
import type { JobState } from '../job/projections/job-state.ts';
import type { Workshop } from './workshop.ts';
import { carryOut, type Written } from './write-entries.ts';

/** The shop's own journal; a job cannot have this name by chance. */
export const shopJob = 'shop';

/** The shop's microphones with their newest calibration, by name. */
export async function shopMicrophones(workshop: Workshop): Promise<JobState['microphones']> {
  const { journal } = await workshop.load(shopJob);
  return [...journal.state.microphones].sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Enters a microphone or its new calibration; opens the journal if this is the first. */
export async function calibrateShopMicrophone(
  workshop: Workshop,
  request: { id: string; who: string; wish: CommandOf<'calibrateMicrophone'> },
): Promise<Result<Written>> {
  const { head } = await workshop.load(shopJob);
  const opening = {
    id: `${shopJob}.opened`,
    who: request.who,
    wish: { command: 'createJob', name: 'The shop', purpose: 'shop' },
  } as const;
  return carryOut(workshop, shopJob, head.entries === 0 ? [opening, request] : [request]);
}

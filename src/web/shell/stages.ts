// The stages of a job, and how far its entries say that it has come.
import type { JobView } from '../api-client.ts';

export const stageNames = [
  'Arrive',
  'Plan',
  'Loom',
  'First sound',
  'Gains',
  'Refit',
  'Shape',
  'Push',
  'Hand over',
] as const;

/**
 * Index of the stage that a job stands at: the first one whose work is not done.
 *
 * Arrive is done once the vehicle is described and a first take of it is kept. What the later stages need has no entries
 * yet, so a job that has arrived stands at Plan.
 */
export function stageIndex(job: { bodyType?: string | undefined; takes: number }): number {
  return job.bodyType !== undefined && job.takes > 0 ? 1 : 0;
}

export function stageOfView({ job }: JobView): number {
  return stageIndex({ bodyType: job.vehicle.bodyType, takes: job.takes.filter(({ kept }) => kept).length });
}

/** When each stage that is done was done, as far as the entries tell. */
export function stageDays(view: JobView): (string | null)[] {
  const first = view.job.takes.find(({ kept }) => kept);
  return stageOfView(view) > 0 ? [first?.when ?? null] : [];
}

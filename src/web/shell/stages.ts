// The stages of a job, and how far its entries say that it has come.
import type { JobView } from '../api-client.ts';
import { dayText } from '../parts/times.ts';

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

type StageName = (typeof stageNames)[number];

/** Stages that entries say are done, with what stands under each: the day, or that all of it is proven. */
export type StagesDone = Partial<Record<StageName, string>>;

/** Hold points of a stage. */
export interface StagePoints {
  name: StageName;
  open: number;
}

/** Proving the points of these is all that they are for; more belongs to handing over. */
const provenStages: readonly StageName[] = ['Loom', 'First sound', 'Gains', 'Refit'];

/**
 * What entries say is done.
 *
 * @param points hold points of each stage that has any, as far as they are known
 */
export function stagesDone(view: JobView, points: readonly StagePoints[]): StagesDone {
  const first = view.job.takes.find(({ kept }) => kept);
  const arrived = first !== undefined && stageOfView(view) > 0;
  const closed = view.job.covers.every(({ state }) => state === 'fastened');
  const proven = points.filter(({ name, open }) => open === 0 && (name !== 'Refit' || closed));
  return {
    ...(arrived ? { Arrive: dayText(first.when) } : {}),
    ...Object.fromEntries(
      proven.filter(({ name }) => provenStages.includes(name)).map(({ name }) => [name, 'proven'] as const),
    ),
  };
}

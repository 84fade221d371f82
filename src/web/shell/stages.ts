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

/** Index of the stage as far as the list of jobs tells it: a car has arrived once it is described and heard. */
export function stageIndex(job: { bodyType?: string | undefined; takes: number }): number {
  return job.bodyType !== undefined && job.takes > 0 ? 1 : 0;
}

type StageName = (typeof stageNames)[number];

/** Stages that entries say are done: when, or null where all of it is proven. */
export type StagesDone = Partial<Record<StageName, string | null>>;

/** Hold points of a stage. */
export interface StagePoints {
  name: StageName;
  open: number;
  all: number;
}

/** Proving the points of these is all that they are for; more belongs to handing over. */
const provenStages: readonly StageName[] = ['Loom', 'First sound', 'Gains', 'Refit'];

/**
 * Index of the stage that a job stands at: the first one whose work is not done.
 *
 * Arrive is done once the vehicle is described and a first take of it is kept. Nothing says that a plan is finished, so a job
 * stays there until the first point of it is proven; from then on it stands where the next points are open, at Refit until
 * its covers are fastened, and at Shape, whose work has no entries yet, after that.
 *
 * @param points hold points of each stage that has any, as far as they are known
 */
export function stageOfView({ job }: JobView, points: readonly StagePoints[]): number {
  const arrived = stageIndex({ bodyType: job.vehicle.bodyType, takes: job.takes.filter(({ kept }) => kept).length });
  if (arrived === 0 || points.every(({ open, all }) => open === all)) return arrived;
  const next = provenStages.find((stage) => points.some(({ name, open }) => name === stage && open > 0));
  if (next !== undefined) return stageNames.indexOf(next);
  return stageNames.indexOf(closed(job) ? 'Shape' : 'Refit');
}

const closed = ({ covers }: JobView['job']): boolean => covers.every(({ state }) => state === 'fastened');

/**
 * What entries say is done.
 *
 * @param points hold points of each stage that has any, as far as they are known
 */
export function stagesDone(view: JobView, points: readonly StagePoints[]): StagesDone {
  const first = view.job.takes.find(({ kept }) => kept);
  const arrived = first !== undefined && view.job.vehicle.bodyType !== undefined;
  const proven = points.filter(({ name, open }) => open === 0 && (name !== 'Refit' || closed(view.job)));
  return {
    ...(arrived ? { Arrive: first.when } : {}),
    ...Object.fromEntries(
      proven.filter(({ name }) => provenStages.includes(name)).map(({ name }) => [name, null] as const),
    ),
  };
}

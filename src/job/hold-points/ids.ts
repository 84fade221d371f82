// The names of hold points: made of the part that each is of, so that the same plan gives the same names.
import type { PartKind } from '../../plan/plan.ts';

/** By kind: the word before the part's id, the word after it, the kind of part, and the stage that proves it. */
const kinds = {
  'run-laid': ['run', 'laid', 'run', 'loom'],
  'fuse-fitted': ['fuse', 'fitted', 'fuse', 'loom'],
  'ground-holds': ['ground', 'holds', 'ground', 'loom'],
  'lead-connected': ['lead', 'connected', 'lead', 'loom'],
  'coils-read': ['load', 'coils', 'load', 'loom'],
  'channel-reaches': ['channel', 'reaches', 'channel', 'first-sound'],
  'driver-polarity': ['driver', 'polarity', 'driver', 'first-sound'],
  'source-ceiling': ['source', 'ceiling', 'source', 'gains'],
  'gain-set': ['gain', 'set', 'amplifier', 'gains'],
  'box-fixed': ['enclosure', 'fixed', 'enclosure', 'refit'],
  'factory-sounds': ['source', 'sounds', 'source', 'refit'],
  'calls-heard': ['source', 'calls', 'source', 'refit'],
  'settings-kept': ['processor', 'settings', 'processor', 'hand-over'],
  planned: ['point', 'proven', 'holdPoint', 'loom'],
} as const satisfies Record<string, readonly [string, string, PartKind, string]>;

export type HoldPointKind = keyof typeof kinds;
export const holdPointKinds = Object.keys(kinds) as [HoldPointKind, ...HoldPointKind[]];

export const holdPointStages = ['loom', 'first-sound', 'gains', 'refit', 'hand-over'] as const;
export type HoldPointStage = (typeof holdPointStages)[number];

/** "lead L07 connected". A gain is of one channel of an amplifier: "gain A/1 set". */
export function holdPointId(kind: HoldPointKind, of: string): string {
  const [before, after] = kinds[kind];
  return `${before} ${of} ${after}`;
}

export const partKindOf = (kind: HoldPointKind): PartKind => kinds[kind][2];
export const stageOf = (kind: HoldPointKind): HoldPointStage => kinds[kind][3];

/** Kind and part of a hold point by its name; null where nothing is called so. */
export function holdPointNamed(id: string): { kind: HoldPointKind; of: string } | null {
  const [before, of, after, ...more] = id.split(' ');
  if (of === undefined || of === '' || more.length > 0) return null;
  const kind = holdPointKinds.find((known) => kinds[known][0] === before && kinds[known][1] === after);
  return kind === undefined ? null : { kind, of };
}

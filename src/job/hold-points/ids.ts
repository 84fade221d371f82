// The names of hold points: made of the part that each is of, so that the same plan gives the same names.
import type { PartKind } from '../../plan/plan.ts';

export const holdPointStages = ['loom', 'first-sound', 'gains', 'refit', 'hand-over'] as const;
export type HoldPointStage = (typeof holdPointStages)[number];

interface KindFacts {
  /** The words before and after the part's id in the name of a point. */
  before: string;
  after: string;
  /** The kind of part that it is of. */
  part: PartKind;
  /** The stage that proves it. */
  stage: HoldPointStage;
}

export const kindFacts = {
  'run-laid': { before: 'run', after: 'laid', part: 'run', stage: 'loom' },
  'fuse-fitted': { before: 'fuse', after: 'fitted', part: 'fuse', stage: 'loom' },
  'ground-holds': { before: 'ground', after: 'holds', part: 'ground', stage: 'loom' },
  'lead-connected': { before: 'lead', after: 'connected', part: 'lead', stage: 'loom' },
  'coils-read': { before: 'load', after: 'coils', part: 'load', stage: 'loom' },
  'channel-reaches': { before: 'channel', after: 'reaches', part: 'channel', stage: 'first-sound' },
  'driver-polarity': { before: 'driver', after: 'polarity', part: 'driver', stage: 'first-sound' },
  'source-ceiling': { before: 'source', after: 'ceiling', part: 'source', stage: 'gains' },
  'gain-set': { before: 'gain', after: 'set', part: 'amplifier', stage: 'gains' },
  'box-fixed': { before: 'enclosure', after: 'fixed', part: 'enclosure', stage: 'refit' },
  'factory-sounds': { before: 'source', after: 'sounds', part: 'source', stage: 'refit' },
  'calls-heard': { before: 'source', after: 'calls', part: 'source', stage: 'refit' },
  'settings-kept': { before: 'processor', after: 'settings', part: 'processor', stage: 'hand-over' },
  planned: { before: 'point', after: 'proven', part: 'holdPoint', stage: 'loom' },
} as const satisfies Record<string, KindFacts>;

export type HoldPointKind = keyof typeof kindFacts;
export const holdPointKinds = Object.keys(kindFacts) as [HoldPointKind, ...HoldPointKind[]];

/** "lead L07 connected". A gain is of one channel of an amplifier: "gain A/1 set". */
export function holdPointId(kind: HoldPointKind, of: string): string {
  const { before, after } = kindFacts[kind];
  return `${before} ${of} ${after}`;
}

/** Kind and part of a hold point by its name; null where nothing is called so. */
export function holdPointNamed(id: string): { kind: HoldPointKind; of: string } | null {
  const [before, of, after, ...more] = id.split(' ');
  if (of === undefined || of === '' || more.length > 0) return null;
  const kind = holdPointKinds.find((known) => kindFacts[known].before === before && kindFacts[known].after === after);
  return kind === undefined ? null : { kind, of };
}

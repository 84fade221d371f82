// Old versions of entries, lifted to the newest form when they are read. What is on disk stays as it was written.
import type { Entry, JsonObject } from './entries.ts';
import { type EntryData, type EntryKind, entryData, entryVersions, isKnownKind } from './entry-kinds.ts';

/** From one version of a kind's data to the next. */
type Lift = (data: JsonObject) => JsonObject;

/** What lifting needs to know; another table than the real one serves tests. */
export interface LiftTable {
  /** The newest version of each kind. */
  versions: Record<string, number>;
  /** `lifts[kind][n - 1]` lifts version n to n + 1, so each kind has one step less than versions. */
  lifts: Record<string, Lift[]>;
}

const table: LiftTable = {
  versions: entryVersions,
  lifts: {
    // The second version may say what was passed over. The first knew of no hold points, so nothing was.
    'covers-changed': [({ covers }) => ({ covers })],
    // The second version may name a photo; whatever the first says means the same.
    'evidence-given': [(data) => data],
  },
};

/** An entry of a known kind in its newest form. */
export type UnderstoodEntry = {
  [Kind in EntryKind]: Pick<Entry, 'id' | 'job' | 'device' | 'sequence' | 'when' | 'who' | 'version'> & {
    kind: Kind;
    data: EntryData<Kind>;
  };
}[EntryKind];

/** `data` in the newest version, or null where version or kind is not known here. */
export function liftedData(entry: Entry, { versions, lifts }: LiftTable): JsonObject | null {
  const newest = Object.hasOwn(versions, entry.kind) ? versions[entry.kind] : 0;
  if (entry.version > newest) return null;
  const steps = lifts[entry.kind] ?? [];
  return steps.slice(entry.version - 1).reduce((data, step) => step(data), entry.data);
}

/**
 * The entry in its newest form, or null when this version does not understand it: its kind or version is newer, or its
 * data have not the form they should have. Such an entry is kept and passed on; it only has no effect here.
 */
export function understood(entry: Entry): UnderstoodEntry | null {
  const data = liftedData(entry, table);
  if (data === null || !isKnownKind(entry.kind)) return null;
  const parsed = entryData[entry.kind].safeParse(data);
  if (!parsed.success) return null;
  const { id, job, device, sequence, when, who, kind, version } = entry;
  return { id, job, device, sequence, when, who, kind, version, data: parsed.data } as UnderstoodEntry;
}

/** What is wrong with the data of an entry that claims a kind and version known here; null when nothing is. */
export function dataComplaint(entry: Entry): string | null {
  const data = liftedData(entry, table);
  if (data === null || !isKnownKind(entry.kind)) return null;
  const parsed = entryData[entry.kind].safeParse(data);
  if (parsed.success) return null;
  const { path, message } = parsed.error.issues[0];
  return `${['data', ...path.map(String)].join('.')}: ${message}`;
}

// Every personal record that a journal ever referred to, with the hash that proves it.
import type { Entry } from '../entries.ts';
import type { PersonalKind } from '../entry-kinds.ts';
import { understood } from '../lifts.ts';

export interface PersonalReference {
  kind: PersonalKind;
  hash: string;
  /** The entry that made it. */
  entry: string;
}

/** By record. Entries that were taken back are among them: what they refer to is still kept. */
export function personalReferences(entries: Iterable<Entry>): Map<string, PersonalReference> {
  const references = new Map<string, PersonalReference>();
  for (const entry of entries) {
    if (entry.kind !== 'vehicle-described' && entry.kind !== 'checked') continue;
    const known = understood(entry);
    if (known?.kind === 'checked' && known.data.found.how === 'said') {
      const { record, hash } = known.data.found.personal;
      references.set(record, { kind: 'complaint', hash, entry: entry.id });
    }
    if (known?.kind !== 'vehicle-described') continue;
    for (const [kind, reference] of Object.entries(known.data.personal ?? {})) {
      references.set(reference.record, { kind: kind as PersonalKind, hash: reference.hash, entry: entry.id });
    }
  }
  return references;
}

// Whether the personal records beside a journal are what the journal says they are.
import type { Sha256 } from './chain.ts';
import type { Entry } from './entries.ts';
import { understood } from './lifts.ts';
import { type PersonalRecord, personalHash } from './personal.ts';
import { personalReferences } from './projections/personal-references.ts';
import type { Verification, VerificationFault } from './verification.ts';

/**
 * Every record that the journal refers to, held against its hash. One that was erased must be empty, and the journal must
 * say that it was erased; one that was left out when the job was handed on is no fault.
 */
export function personalFaults(
  entries: readonly Entry[],
  records: readonly PersonalRecord[],
  sha256: Sha256,
): { counts: Verification['personalRecords']; faults: VerificationFault[] } {
  const erased = new Set<string>();
  for (const entry of entries) {
    const fact = entry.kind === 'personal-erased' ? understood(entry) : null;
    if (fact?.kind === 'personal-erased') for (const record of fact.data.records) erased.add(record);
  }
  const byId = new Map(records.map((record) => [record.id, record]));
  const counts = { held: 0, erased: 0, leftOut: 0 };
  const faults: VerificationFault[] = [];
  for (const [where, { kind, hash, entry }] of personalReferences(entries)) {
    const record = byId.get(where);
    const say = (code: string, message: string) => faults.push({ code, message, entry, where });
    if (erased.has(where)) {
      counts.erased++;
      if (record !== undefined && (record.value !== null || record.salt !== null)) {
        say('personal-not-erased', `The ${kind} was erased by an entry, but is still kept.`);
      }
    } else if (record === undefined) say('personal-missing', `The record of the ${kind} is missing.`);
    else if (record.erasedWhen !== undefined) {
      say('personal-erased-silently', `The ${kind} was erased, but no entry says so.`);
    } else if (record.value === null || record.salt === null) counts.leftOut++;
    else if (record.kind !== kind || personalHash(record.salt, record.value, sha256) !== hash) {
      say('personal-altered', `The ${kind} is not what was entered.`);
    } else counts.held++;
  }
  return { counts, faults };
}

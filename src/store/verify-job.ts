// Proof of a job as it stands in the store: entries, files, personal records.
import { failure, type Result, success } from '../base/result.ts';
import type { Head } from '../job/chain.ts';
import { chainFaults } from '../job/chain-faults.ts';
import type { ChainedEntry } from '../job/entries.ts';
import { journalOf } from '../job/journal.ts';
import type { PersonalRecord } from '../job/personal.ts';
import { personalFaults } from '../job/personal-faults.ts';
import { fileReferences } from '../job/projections/file-references.ts';
import type { Verification, VerificationFault } from '../job/verification.ts';
import { type ContentKind, contentKinds } from './content-store.ts';
import { hashOf } from './file-hash.ts';
import { viewsHold } from './job-views.ts';
import { sha256, type Workshop } from './workshop.ts';

export interface VerifyOptions {
  /** A hash that somebody kept: the journal must have ended with it once. */
  keptHash?: string | undefined;
  onProgress?: ((share: number) => void) | undefined;
}

/** The journal and what belongs to it, wherever they come from. */
export interface Evidence {
  job: string;
  /** As they stand, unproven. */
  entries: readonly unknown[];
  /** Where the journal ended when it was last written. */
  head: Head;
  records: readonly PersonalRecord[];
  /** Hash of the file that should have this hash; null where there is no such file. */
  hashOf: (kind: ContentKind, hash: string) => Promise<string | null>;
}

/** Hashes every entry and file of a job again and names what is not as it was written. */
export async function verifyJob(
  workshop: Workshop,
  job: string,
  options: VerifyOptions = {},
): Promise<Result<Verification>> {
  const { journals, content } = workshop;
  let head = await journals.head(job);
  let entries = await journals.entries(job);
  // Somebody may write while this looks; then it looks again.
  for (let now = await journals.head(job); now.hash !== head.hash; now = await journals.head(job)) {
    head = now;
    entries = await journals.entries(job);
  }
  const records = await journals.personalRecords(job);
  if (head.entries === 0 && entries.length === 0) {
    const mend = '"kickpanel job list" shows the jobs.';
    return failure({ code: 'job-unknown', message: 'There is no such job.', where: job, mend });
  }
  const hashOfKept: Evidence['hashOf'] = async (kind, hash) => {
    const source = await content.open(kind, hash);
    if (source === null) return null;
    try {
      return await hashOf(source);
    } finally {
      source.close();
    }
  };
  const proof = await verified({ job, entries, head, records, hashOf: hashOfKept }, options);
  if (proof.whole && !(await viewsHold(workshop, job, head, journalOf(job, entries).state))) {
    const message =
      'What is kept to show the job is not what its entries make. Export it and import it into a new data folder.';
    return success({ ...proof, whole: false, faults: [{ code: 'view-differs', message }] });
  }
  return success(proof);
}

/** What is proved by the evidence, and what is not. */
export async function verified(evidence: Evidence, options: VerifyOptions = {}): Promise<Verification> {
  const { job, entries, head } = evidence;
  const faults: VerificationFault[] = chainFaults(entries, job, sha256, head);
  const { keptHash } = options;
  if (keptHash !== undefined && !entries.some((entry) => (entry as Partial<ChainedEntry>)?.hash === keptHash)) {
    const message = 'The journal never ended with the hash that was kept: it was rewritten, or belongs to another job.';
    faults.push({ code: 'kept-hash-unknown', message, where: keptHash });
  }
  const readable = faults.some(({ code }) => code === 'entry-unreadable') ? [] : (entries as ChainedEntry[]);
  const files = await fileFaults(readable, evidence.hashOf, options.onProgress ?? (() => {}));
  const personal = personalFaults(readable, evidence.records, sha256);
  faults.push(...files.faults, ...personal.faults);
  return {
    schema: 'kickpanel.verification/1',
    job,
    whole: faults.length === 0,
    head: { entries: entries.length, hash: (entries.at(-1) as ChainedEntry | undefined)?.hash ?? head.hash },
    recordings: files.recordings,
    tracks: files.tracks,
    photos: files.photos,
    personalRecords: personal.counts,
    faults,
  };
}

const words: Record<ContentKind, string> = { recordings: 'recording', tracks: 'track', photos: 'photo' };

async function fileFaults(
  entries: readonly ChainedEntry[],
  hash: Evidence['hashOf'],
  onProgress: (share: number) => void,
): Promise<Record<ContentKind, number> & { faults: VerificationFault[] }> {
  const references = fileReferences(entries);
  const found = { recordings: 0, tracks: 0, photos: 0, faults: [] as VerificationFault[] };
  const total = contentKinds.reduce((sum, kind) => sum + references[kind].size, 0);
  let done = 0;
  for (const kind of contentKinds) {
    for (const [where, position] of references[kind]) {
      const say = (code: string, message: string) =>
        found.faults.push({ code, message, position, entry: entries[position - 1].id, where });
      const got = await hash(kind, where);
      if (got === where) found[kind]++;
      else if (got === null) say(`${words[kind]}-missing`, `The ${words[kind]} of entry ${position} is missing.`);
      else say(`${words[kind]}-altered`, `The ${words[kind]} of entry ${position} is not what was entered.`);
      onProgress(++done / total);
    }
  }
  return found;
}

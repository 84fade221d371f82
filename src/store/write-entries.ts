// From wishes, or from entries that another device wrote, to entries on disk: all of them or none.
import { failure, type Issue, type Result, success } from '../base/result.ts';
import { chained, type Head, sameEntry } from '../job/chain.ts';
import type { Request } from '../job/commands/commands.ts';
import { type Decision, decide } from '../job/commands/decide.ts';
import type { ChainedEntry, Entry } from '../job/entries.ts';
import { entryComplaints } from '../job/entry-complaints.ts';
import { personalKinds } from '../job/entry-kinds.ts';
import { type Journal, journalOf } from '../job/journal.ts';
import { understood } from '../job/lifts.ts';
import type { PersonalRecord } from '../job/personal.ts';
import { fileReferences } from '../job/projections/file-references.ts';
import { personalReferences } from '../job/projections/personal-references.ts';
import { keptPhoto } from './keep-photo.ts';
import { sha256, type Workshop } from './workshop.ts';

export interface Written {
  appended: ChainedEntry[];
  /** Ids that the journal had already. */
  known: string[];
  head: Head;
}

/** What is to be written, decided on the journal as it was read. */
interface Intent extends Decision {
  known: string[];
}

/** Two writers can be in each other's way; so often that it would not end, they cannot. */
const attemptsMax = 50;

/** Carries out wishes in their order. One that the journal knows by its id was carried out before and is left alone. */
export function carryOut(workshop: Workshop, job: string, requests: readonly Request[]): Promise<Result<Written>> {
  return write(workshop, job, (journal) => decideAll(workshop, journal, requests));
}

/**
 * Takes in entries as another device wrote them. What is known with the same content is left alone; the same id with
 * another content is refused, as two different things cannot be one.
 *
 * @param records personal records that came with them
 */
export function takeIn(
  workshop: Workshop,
  job: string,
  entries: readonly Entry[],
  records: readonly PersonalRecord[] = [],
): Promise<Result<Written>> {
  return write(workshop, job, (journal) => foreignIntent(journal, entries, records));
}

async function write(
  workshop: Workshop,
  job: string,
  intend: (journal: Journal) => Result<Intent>,
): Promise<Result<Written>> {
  for (let attempt = 0; attempt < attemptsMax; attempt++) {
    const { head, journal } = await workshop.load(job);
    const intent = intend(journal);
    if (!intent.ok) return intent;
    const { entries, known, records, erase } = intent.value;
    if (entries.length === 0) return success({ appended: [], known, head });
    const issues = [
      ...entries.flatMap((entry) => entryComplaints(entry, job)),
      ...(await missingFiles(workshop, entries)),
    ];
    if (issues.length > 0) return failure(...issues);
    const appended = chained(entries, head, sha256);
    const when = workshop.now();
    const done = await workshop.journals.append({
      job,
      after: head,
      entries: appended,
      records,
      erase: { records: erase, when },
    });
    if (!done) continue;
    const end = { entries: head.entries + appended.length, hash: appended[appended.length - 1].hash };
    workshop.announce({ job, head: end });
    return success({ appended, known, head: end });
  }
  const mend = 'Wait a moment and do it again.';
  return failure({ code: 'job-busy', message: 'Others keep writing to this job.', where: job, mend });
}

function decideAll(workshop: Workshop, before: Journal, requests: readonly Request[]): Result<Intent> {
  let journal = before;
  const intent: Intent = { entries: [], known: [], records: [], erase: [] };
  for (const request of requests) {
    if (journal.entries.has(request.id)) {
      intent.known.push(request.id);
      continue;
    }
    const decision = decide(journal, request, {
      when: workshop.now(),
      device: workshop.device,
      fresh: personalKinds.map(() => ({ record: workshop.freshId(), salt: workshop.freshSalt() })),
      sha256,
    });
    if (!decision.ok) return decision;
    const { entries, records, erase } = decision.value;
    intent.entries.push(...entries);
    intent.records.push(...records);
    intent.erase.push(...erase);
    journal = journalOf(journal.job, [...journal.entries.values(), ...entries]);
  }
  return success(intent);
}

function foreignIntent(
  journal: Journal,
  entries: readonly Entry[],
  records: readonly PersonalRecord[],
): Result<Intent> {
  const issues: Issue[] = [];
  const known: string[] = [];
  const fresh = new Map<string, Entry>();
  for (const entry of entries) {
    const held = journal.entries.get(entry.id) ?? fresh.get(entry.id);
    if (held === undefined) fresh.set(entry.id, entry);
    else if (sameEntry(held, entry)) known.push(entry.id);
    else {
      const message = 'An entry of this id is there and says something else.';
      const mend = 'One of the two was altered: prove both copies of the job with "verify".';
      issues.push({ code: 'entry-differs', message, where: `entry ${entry.id}`, mend });
    }
  }
  const added = [...fresh.values()];
  const opens = journal.state.created !== null || added.some(({ kind }) => kind === 'job-created');
  if (!opens && added.length > 0) {
    const mend = 'Send the whole journal, or create the job first.';
    issues.push({ code: 'job-unknown', message: 'There is no such job.', where: journal.job, mend });
  }
  if (issues.length > 0) return failure(...issues);
  const erasedNow = added.flatMap((entry) => {
    const fact = understood(entry);
    return fact?.kind === 'personal-erased' ? fact.data.records : [];
  });
  const erased = new Set([...journal.state.erasedRecords, ...erasedNow]);
  const held = recordsFor(journal.job, added, records, erased);
  // What was erased here stays erased, though a copy that knows nothing of it brings its reference again.
  const erase = new Set([...erasedNow, ...held.map(({ id }) => id).filter((id) => erased.has(id))]);
  return success({ entries: added, known, records: held, erase: [...erase] });
}

/** A record for each reference: what came with it, or an empty one where it was left out or has been erased. */
function recordsFor(
  job: string,
  entries: readonly Entry[],
  given: readonly PersonalRecord[],
  erased: ReadonlySet<string>,
): PersonalRecord[] {
  const byId = new Map(given.map((record) => [record.id, record]));
  return [...personalReferences(entries)].map(([id, { kind }]) => {
    const record = byId.get(id);
    if (record !== undefined && !erased.has(id)) return { ...record, job };
    return { id, job, kind, salt: null, value: null };
  });
}

/** Recordings, tracks and photos that the entries speak of and that are not here: a file comes before its entry. */
async function missingFiles({ content }: Workshop, entries: readonly Entry[]): Promise<Issue[]> {
  const { recordings, tracks, photos } = fileReferences(entries);
  const issues: Issue[] = [];
  for (const where of recordings.keys()) {
    if ((await content.size('recordings', where)) !== null) continue;
    const mend = 'Send the recording first; the take can be entered once it is kept.';
    issues.push({ code: 'recording-missing', message: 'The recording of the take is not here.', where, mend });
  }
  for (const entry of entries) {
    const fact = entry.kind === 'take-recorded' ? understood(entry) : null;
    if (fact?.kind !== 'take-recorded') continue;
    const { recording: where, bytes: said } = fact.data;
    const bytes = await content.size('recordings', where);
    if (bytes === null || bytes === said) continue;
    const message = `The recording has ${bytes} bytes, the take says ${said}.`;
    issues.push({ code: 'take-differs', message, where, mend: 'Say of the take what the recording is.' });
  }
  for (const where of tracks.keys()) {
    if ((await content.size('tracks', where)) !== null) continue;
    const mend = 'Send the description of the track first.';
    issues.push({ code: 'track-missing', message: 'The track that the entry names is not here.', where, mend });
  }
  for (const where of photos.keys()) {
    if ((await content.size('photos', where)) !== null) continue;
    const mend = 'Send the photo first; it can be entered once it is kept.';
    issues.push({ code: 'photo-missing', message: 'The photo that the entry names is not here.', where, mend });
  }
  for (const entry of entries) {
    const fact = entry.kind === 'photo-attached' ? understood(entry) : null;
    if (fact?.kind !== 'photo-attached') continue;
    const { photo: where, bytes, type } = fact.data;
    const kept = await keptPhoto(content, where);
    if (kept === null || (kept.bytes === bytes && kept.type === type)) continue;
    const message = `The photo is a ${kept.type} of ${kept.bytes} bytes, the entry says ${type} of ${bytes}.`;
    issues.push({ code: 'photo-differs', message, where, mend: 'Say of the photo what it is.' });
  }
  return issues;
}

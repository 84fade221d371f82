// Jobs as a person reads them on a terminal.
import type { JobSummary } from '../../job/projections/job-summary.ts';
import type { Verification } from '../../job/verification.ts';
import type { JobView } from '../../store/job-views.ts';
import type { TextStyle } from '../output.ts';
import { twoColumns, wrapped } from '../wrap.ts';

/** `2026-03-04T10:20:30.000Z` as `2026-03-04 10:20`, universal time as it stands. */
const shortTime = (when: string | null): string => (when === null ? '' : `${when.slice(0, 10)} ${when.slice(11, 16)}`);

export function jobListText(jobs: readonly JobSummary[], style: TextStyle): string {
  if (jobs.length === 0) return 'No jobs yet. Start with the vehicle in front of you: kickpanel job new "NAME"\n';
  const rows = jobs.flatMap((job) => {
    const name = [job.number, job.name, job.vehicle].filter(Boolean).join(', ');
    const takes = `${job.takes} ${job.takes === 1 ? 'take' : 'takes'}, changed ${shortTime(job.changedWhen)}`;
    return [
      ...wrapped(`${name}  (${takes})`, style.width, 2),
      `  ${job.id}`,
      ...(job.waits === null ? [] : wrapped(`  ${job.waits}`, style.width, 2)),
      '',
    ];
  });
  return `${rows.join('\n').trimEnd()}\n`;
}

function coverSaid({ cover, state, passedOver }: JobView['job']['covers'][number]): string {
  if (passedOver === undefined) return `${cover} ${state}`;
  const { name, holdPoints } = passedOver;
  return `${cover} ${state} over ${holdPoints.length} unproven, by ${name}`;
}

export function jobText({ job, waits, personal, head }: JobView, style: TextStyle): string {
  const rows: [string, string][] = [['Job', [job.number, job.name].filter(Boolean).join(', ')]];
  const vehicle = [job.vehicle.name, job.vehicle.bodyType].filter(Boolean).join(', ');
  if (vehicle !== '') rows.push(['Vehicle', vehicle]);
  for (const [kind, known] of Object.entries(personal)) rows.push([kind, known.value ?? 'not kept here']);
  if (job.covers.length > 0) {
    rows.push(['Covers', job.covers.map(coverSaid).join(', ')]);
  }
  for (const microphone of job.microphones) {
    const { name, fullScaleSplDb } = microphone;
    rows.push(['Microphone', fullScaleSplDb === undefined ? name : `${name}, full scale is ${fullScaleSplDb} dB SPL`]);
  }
  for (const take of job.takes) {
    const open = take.covers.filter(({ state }) => state !== 'fastened').map(({ cover }) => cover);
    const where = take.place === undefined ? '' : `, ${take.place}`;
    const asDriven = open.length === 0 ? '' : `, with ${open.join(', ')} open`;
    rows.push(['Take', `${take.name}${where}${asDriven}${take.kept ? '' : ', set aside'} (${shortTime(take.when)})`]);
  }
  for (const photo of job.photos) rows.push(['Photo', `${photo.name} (${shortTime(photo.when)})`]);
  for (const note of job.notes) rows.push(['Note', `${note.text} (${note.who}, ${shortTime(note.when)})`]);
  if (job.notUnderstood > 0) {
    rows.push(['Kept', `${job.notUnderstood} entries of a newer version, which this one does not understand`]);
  }
  rows.push(['Journal', `${head.entries} entries, ends with ${head.hash}`]);
  if (job.undoable !== null) rows.push(['Undo', `would take back: ${job.undoable.says}`]);
  const waiting = waits.flatMap(({ message }) => wrapped(`  ${message}`, style.width, 4));
  const next = waiting.length === 0 ? [] : ['', 'It waits for', ...waiting];
  return `${[...twoColumns(rows, style.width), ...next].join('\n')}\n`;
}

export function verificationText(proof: Verification, style: TextStyle): string {
  const { head, recordings, tracks, photos, personalRecords, faults } = proof;
  const seen = `${head.entries} entries, ${recordings} recordings, ${tracks} tracks, ${photos} photos`;
  const people = `${personalRecords.held} personal records, ${personalRecords.erased} erased, ${personalRecords.leftOut} left out`;
  if (proof.whole) {
    return `${wrapped(`Whole: ${seen}; ${people}. It ends with ${head.hash}`, style.width).join('\n')}\n`;
  }
  const listed = faults.slice(0, 20).flatMap(({ message, where, entry }) => {
    const place = where ?? entry;
    return wrapped(`  ${message}${place === undefined ? '' : ` (${place})`}`, style.width, 4);
  });
  const more = faults.length > 20 ? [`  and ${faults.length - 20} more`] : [];
  return `${['Not whole. The first fault comes first:', ...listed, ...more].join('\n')}\n`;
}

// Why an entry that comes from outside is not written.
import type { Issue } from '../base/result.ts';
import { canonicalJson } from './canonical-json.ts';
import { authored } from './chain.ts';
import { type Entry, entryBytesMax } from './entries.ts';
import { dataComplaint } from './lifts.ts';

/** Everything that speaks against writing `entry` into the journal of `job`; its form is known to be right. */
export function entryComplaints(entry: Entry, job: string): Issue[] {
  const where = `entry ${entry.id}`;
  const issues: Issue[] = [];
  if (entry.job !== job) {
    const message = `The entry belongs to job ${entry.job}, not to ${job}.`;
    issues.push({ code: 'entry-foreign', message, where, mend: 'Send it to the job that it belongs to.' });
  }
  const complaint = dataComplaint(entry);
  if (complaint !== null) {
    const message = `What it says is not what an entry of kind ${entry.kind} can say: ${complaint}.`;
    issues.push({ code: 'entry-invalid', message, where, mend: 'Mend this field.' });
  }
  try {
    const { length } = canonicalJson(authored(entry));
    if (length > entryBytesMax) {
      const message = `The entry has ${length} characters, more than the ${entryBytesMax} that one may have.`;
      issues.push({
        code: 'entry-too-large',
        message,
        where,
        mend: 'Say it in several entries, or keep it as a file.',
      });
    }
  } catch (error) {
    const message = `The entry cannot be written down: ${(error as Error).message}.`;
    issues.push({ code: 'entry-invalid', message, where, mend: 'Take the broken character out.' });
  }
  return issues;
}

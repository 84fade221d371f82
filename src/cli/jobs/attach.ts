// `job attach JOB FILE...`: photos that belong to a job, kept as they are.
import type { CommandOutcome } from '../command.ts';
import { issuesOutcome, type JobPart } from './job-call.ts';
import { carriedOut, stateNamed } from './job-state.ts';
import { photoKept } from './photo-files.ts';

export const attach: JobPart = {
  operands: [2, 101],
  usage: 'job attach JOB PHOTO.jpg... [--name TEXT]',
  async run(call): Promise<CommandOutcome> {
    const [name, ...files] = call.operands;
    const found = await stateNamed(call, name);
    if (!found.ok) return issuesOutcome(...found.issues);
    const called = call.given('name');
    if (called !== undefined && files.length > 1) {
      const mend = 'Attach them one by one, or without --name: they are called as their files then.';
      return issuesOutcome({
        code: 'options-conflict',
        message: 'One name cannot be that of several.',
        where: '--name',
        mend,
      });
    }
    const kept = [];
    for (const file of files) kept.push(await photoKept(call, file, called));
    const wishes = kept.flatMap((one) => (one.ok ? [one.value] : []));
    // Files that were kept for nothing hurt nobody; no entry speaks of one unless all are whole.
    if (wishes.length < kept.length) return issuesOutcome(...kept.flatMap((one) => (one.ok ? [] : one.issues)));
    const written = await carriedOut(call, found.value.id, ...wishes);
    if (!written.ok) return issuesOutcome(...written.issues);
    const { appended, state } = written.value;
    const photos = wishes.flatMap(({ photo }) => state.photos.filter((known) => known.photo === photo));
    return {
      status: 0,
      answer: { schema: 'kickpanel.attached/1', job: state.id, photos, appended },
      text: () =>
        photos
          .map(({ name: one, type, bytes, photo }) => `${one} (${type}, ${(bytes / 1e6).toFixed(1)} MB)\n  ${photo}\n`)
          .join(''),
    };
  },
};

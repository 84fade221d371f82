// `job export`, `job import` and `job verify`.
import { createWriteStream } from 'node:fs';
import { open, rename, rm, stat } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { failure, type Result, success } from '../../base/result.ts';
import { importArchive } from '../../store/archive/import-archive.ts';
import { verifyArchive } from '../../store/archive/verify-archive.ts';
import { type ArchiveStream, archiveOf } from '../../store/archive/write-archive.ts';
import { verifyJob } from '../../store/verify-job.ts';
import { pathIssue } from '../text-file.ts';
import { issuesOutcome, type JobPart, jobNamed } from './job-call.ts';
import { verificationText } from './job-text.ts';

/** Writes the archive beside `path` first: what is there in the end is whole. */
async function written({ stream }: ArchiveStream, path: string): Promise<Result<void>> {
  const draft = `${path}.${process.pid}.tmp`;
  try {
    await pipeline(stream, createWriteStream(draft));
    const file = await open(draft, 'r');
    await file.sync().finally(() => file.close());
    await rename(draft, path);
    return success(undefined);
  } catch (error) {
    await rm(draft, { force: true });
    if (typeof (error as NodeJS.ErrnoException).code !== 'string') throw error;
    return failure(pathIssue(path, error, 'written'));
  }
}

export const exportJob: JobPart = {
  operands: [1, 1],
  usage: 'job export JOB --out F.zip',
  async run({ operands, given, workshop }) {
    const job = await jobNamed(workshop, operands[0]);
    if (!job.ok) return issuesOutcome(...job.issues);
    const archive = await archiveOf(workshop, job.value, { personal: given('without-personal') === undefined });
    if (!archive.ok) return issuesOutcome(...archive.issues);
    const path = given('out') ?? archive.value.name;
    const done = await written(archive.value, path);
    if (!done.ok) return issuesOutcome(...done.issues);
    const { head } = await workshop.load(job.value);
    const { byteLength: bytes } = archive.value;
    return {
      status: 0,
      answer: { schema: 'kickpanel.exported/1', job: job.value, file: path, bytes, head },
      text: () => `Written: ${path} (${(bytes / 1e6).toFixed(1)} MB)\nThe journal ends with ${head.hash}\n`,
    };
  },
};

export const importJob: JobPart = {
  operands: [1, 1],
  usage: 'job import F.zip',
  async run({ operands: [path], workshop, onProgress }) {
    try {
      const imported = await importArchive(workshop, path, { onProgress: (share) => onProgress(share, 'proving it') });
      if (!imported.ok) return issuesOutcome(...imported.issues);
      const { job, appended, known, recordings, tracks, photos } = imported.value;
      return {
        status: 0,
        answer: imported.value,
        text: () =>
          `Job ${job}: ${appended} entries, ${recordings} recordings, ${tracks} tracks and ${photos} photos came in, ${known} entries were there\n`,
      };
    } catch (error) {
      if (typeof (error as NodeJS.ErrnoException).code !== 'string') throw error;
      return issuesOutcome(pathIssue(path, error, 'read'));
    }
  },
};

export const verify: JobPart = {
  operands: [1, 1],
  usage: 'job verify JOB|F.zip',
  async run({ operands: [name], given, workshop, onProgress }) {
    const keptHash = given('hash');
    if (keptHash !== undefined && !/^[0-9a-f]{64}$/.test(keptHash)) {
      const mend = 'Give the 64 digits as the report or the export shows them.';
      return issuesOutcome({ code: 'bad-option-value', message: 'This is no hash.', where: '--hash', mend });
    }
    const options = { keptHash, onProgress: (share: number) => onProgress(share, 'hashing') };
    const isFile = await stat(name).then(
      (found) => found.isFile(),
      () => false,
    );
    const job = isFile ? success(name) : await jobNamed(workshop, name);
    if (!job.ok) return issuesOutcome(...job.issues);
    const proof = isFile ? await verifyArchive(name, options) : await verifyJob(workshop, job.value, options);
    if (!proof.ok) return issuesOutcome(...proof.issues);
    const status = proof.value.whole ? 0 : 1;
    return { status, answer: proof.value, text: (style) => verificationText(proof.value, style) };
  },
};

// Handlers of jobs: each turns a call into one function of the store and its outcome into an answer.

import { Readable } from 'node:stream';
import type { Context } from 'hono';
import type { Issue, Result } from '../../base/result.ts';
import { importArchive } from '../../store/archive/import-archive.ts';
import { withReceivedArchive } from '../../store/archive/receive-archive.ts';
import { archiveOf } from '../../store/archive/write-archive.ts';
import { jobSummaries, jobView } from '../../store/job-views.ts';
import { verifyJob } from '../../store/verify-job.ts';
import { carryOut, takeIn, type Written } from '../../store/write-entries.ts';
import { badNews, jsonAnswer } from '../answers.ts';
import type { Appended } from '../api/jobs.ts';
import type { ApiHandlers } from '../api.ts';
import { bodyPieces } from '../body-pieces.ts';
import type { ServerParts } from '../context.ts';

type JobHandlers = Pick<
  ApiHandlers,
  'listJobs' | 'createJob' | 'showJob' | 'listEntries' | 'appendEntries' | 'verifyJob' | 'exportJob' | 'importJob'
>;

function jobUnknown(where: string): Issue {
  return { code: 'job-unknown', message: 'There is no such job.', where, mend: 'Choose one from the list of jobs.' };
}

export function jobHandlers({ workshop, dataFolder }: ServerParts): JobHandlers {
  async function appended(context: Context, job: string, written: Result<Written>) {
    if (!written.ok) return badNews(context, written.issues, 409);
    const view = await jobView(workshop, job);
    if (view === null) return badNews(context, [jobUnknown(job)], 404);
    const { appended: entries, known } = written.value;
    return jsonAnswer<Appended, 200 | 201>(context, { appended: entries, known, view }, entries.length > 0 ? 201 : 200);
  }

  return {
    listJobs: async (context) => context.json({ jobs: await jobSummaries(workshop) }, 200),
    async createJob(context) {
      const { job = workshop.freshId(), requests } = context.req.valid('json');
      if (requests[0].wish.command !== 'createJob') {
        const message = 'A new job starts with the wish createJob.';
        return badNews(context, [{ code: 'job-not-created', message, where: 'requests[0]' }], 400);
      }
      return appended(context, job, await carryOut(workshop, job, requests));
    },
    async showJob(context) {
      const { job } = context.req.valid('param');
      const view = await jobView(workshop, job);
      return view === null ? badNews(context, [jobUnknown(job)], 404) : context.json(view, 200);
    },
    async listEntries(context) {
      const { job } = context.req.valid('param');
      const { head, chain } = await workshop.load(job);
      if (head.entries === 0) return badNews(context, [jobUnknown(job)], 404);
      return context.json({ entries: chain.slice(context.req.valid('query').after), head }, 200);
    },
    async appendEntries(context) {
      const { job } = context.req.valid('param');
      const body = context.req.valid('json');
      const written =
        'requests' in body ? await carryOut(workshop, job, body.requests) : await takeIn(workshop, job, body.entries);
      return appended(context, job, written);
    },
    async verifyJob(context) {
      const { job } = context.req.valid('param');
      const proof = await verifyJob(workshop, job, { keptHash: context.req.valid('query').hash });
      return proof.ok ? context.json(proof.value, 200) : badNews(context, proof.issues, 404);
    },
    async exportJob(context) {
      const { job } = context.req.valid('param');
      const archive = await archiveOf(workshop, job, { personal: context.req.valid('query').personal === 'yes' });
      if (!archive.ok) return badNews(context, archive.issues, 409);
      const { name, byteLength, stream } = archive.value;
      return new Response(Readable.toWeb(stream) as ReadableStream, {
        headers: {
          'content-type': 'application/zip',
          'content-length': String(byteLength),
          'content-disposition': `attachment; filename="${name}"`,
        },
      });
    },
    async importJob(context) {
      const imported = await withReceivedArchive(dataFolder, bodyPieces(context), (path) =>
        importArchive(workshop, path),
      );
      if (!imported.ok) return badNews(context, imported.issues, 422);
      return jsonAnswer(context, imported.value, imported.value.appended > 0 ? 201 : 200);
    },
  };
}

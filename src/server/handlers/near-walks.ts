// Handlers of near walks: what the job says is gathered here, what its takes say is read in a worker.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { canonicalJson } from '../../job/canonical-json.ts';
import { nearPlanOfJob } from '../../job/near-walk/near-plan-of-job.ts';
import { nearTakesOf } from '../../job/near-walk/near-takes.ts';
import type { TrackDescription } from '../../signals/track.ts';
import { jobView } from '../../store/job-views.ts';
import { keepRecording, keptTrack } from '../../store/keep-files.ts';
import { sha256 } from '../../store/workshop.ts';
import { badNews, jsonAnswer } from '../answers.ts';
import type { NearState } from '../api/near-walks.ts';
import type { ApiHandlers } from '../api.ts';
import type { ServerParts } from '../context.ts';
import { nearDesk } from '../near-desk.ts';
import type { NearWalkOutcome, PlaysOutcome } from '../worker-messages.ts';

type NearHandlers = Pick<ApiHandlers, 'startNearWalk' | 'startPlays' | 'showNear' | 'cancelNear'>;

function nearUnknown(where: string): Issue {
  return { code: 'near-unknown', message: 'Nobody asked for this.', where, mend: 'Ask for the near walk of a job.' };
}

export function nearWalkHandlers({ workshop, runner, cache, readerVersion: version }: ServerParts): NearHandlers {
  const { content } = workshop;
  const desk = nearDesk(runner, cache);

  async function files(recording: string, track: string): Promise<Result<{ path: string; track: TrackDescription }>> {
    const path = content.path('recordings', recording);
    const description = await keptTrack(content, track);
    const issues: Issue[] = [];
    if (path === null || (await content.size('recordings', recording)) === null) {
      const mend = 'Send the recording first.';
      issues.push({ code: 'recording-unknown', message: 'There is no such recording.', where: recording, mend });
    }
    if (description === null) {
      const mend = 'Make the track, or send its description first.';
      issues.push({ code: 'track-unknown', message: 'There is no such track.', where: track, mend });
    }
    return path === null || description === null || issues.length > 0
      ? failure(...issues)
      : success({ path, track: description });
  }

  const begun = (state: NearState) => [state, state.state === 'done' ? 200 : 202] as const;

  return {
    async startNearWalk(context) {
      const { job } = context.req.valid('param');
      const view = await jobView(workshop, job);
      if (view === null) {
        const mend = 'Choose one from the list of jobs.';
        return badNews(context, [{ code: 'job-unknown', message: 'There is no such job.', where: job, mend }], 404);
      }
      const { walk, plan, issues } = nearPlanOfJob(view.job.plan.parts);
      if (plan.outputs.length === 0) {
        const [left] = walk.left;
        const needs = left === undefined ? 'channels' : `of ${left.id} ${left.needs}`;
        const mend = 'Plan the channels first.';
        issues.push({ code: 'plan-incomplete', message: `The near walk needs the plan first: ${needs}.`, mend });
      }
      if (issues.length > 0) return badNews(context, issues, 409);
      const taken = nearTakesOf(view.job, walk);
      const takes: { place: string; recordingPath: string; track: TrackDescription; keptAt: string }[] = [];
      for (const [place, { recording, track }] of taken) {
        const found = await files(recording, track);
        if (!found.ok) return badNews(context, found.issues, 404);
        const keptAt = cache.path(`${sha256(canonicalJson({ near: recording, track, version }))}.near`);
        takes.push({ place, recordingPath: found.value.path, track: found.value.track, keptAt });
      }
      const named = [...taken].map(([place, { take }]) => ({ place, take }));
      const heard = [...taken].map(([place, { recording, track }]) => ({ place, recording, track }));
      const state = desk.start({
        id: sha256(canonicalJson({ plan, named, heard, version })),
        task: { kind: 'near-walk', plan, takes },
        takes: named,
        answered: async (outcome) => success({ walk: (outcome as NearWalkOutcome).walk }),
      });
      return jsonAnswer(context, ...begun(state));
    },
    async startPlays(context) {
      const { recording, track } = context.req.valid('json');
      const found = await files(recording, track);
      if (!found.ok) return badNews(context, found.issues, 404);
      const { path: recordingPath, track: description } = found.value;
      const state = desk.start({
        id: sha256(canonicalJson({ plays: recording, track, version })),
        task: { kind: 'plays', recordingPath, track: description },
        async answered(outcome) {
          const plays: NonNullable<NearState['plays']> = [];
          for (const { startS, durationS, wav } of (outcome as PlaysOutcome).plays) {
            const kept = await keepRecording(content, [wav]);
            if (!kept.ok) return kept;
            plays.push({ startS, durationS, recording: kept.value.sha256, bytes: kept.value.bytes });
          }
          return success({ plays });
        },
      });
      return jsonAnswer(context, ...begun(state));
    },
    async showNear(context) {
      const { id } = context.req.valid('param');
      const state = desk.state(id);
      return state === null ? badNews(context, [nearUnknown(id)], 404) : jsonAnswer(context, state, 200);
    },
    async cancelNear(context) {
      const { id } = context.req.valid('param');
      const state = desk.cancel(id);
      return state === null ? badNews(context, [nearUnknown(id)], 404) : jsonAnswer(context, state, 200);
    },
  };
}

// `job hold-points JOB`: what must be proven, what is, and the shortest list of tests for the rest.
import type { Result } from '../../base/result.ts';
import { type CoverReport, jobHoldPoints } from '../../job/hold-points/behind-cover.ts';
import { type HoldPoint, isOpen } from '../../job/hold-points/hold-points.ts';
import { shortestTests } from '../../job/hold-points/shortest-tests.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { nearestWord } from '../nearest-word.ts';
import { coverLine, inWidth, pointLines, testLines } from './hold-point-text.ts';
import { issuesOutcome, type JobPart } from './job-call.ts';
import { stateAsked, stateOfFile } from './job-state.ts';

/** What to say of a cover that the plan does not have. */
export function coverUnknown(called: string, covers: readonly CoverReport[], where: string): CommandOutcome {
  const names = covers.flatMap(({ cover, letter }) => (letter === null ? [cover] : [cover, letter]));
  const near = nearestWord(called, names);
  const list = names.length === 0 ? 'The plan has no covers.' : `Its covers: ${names.join(', ')}.`;
  return issuesOutcome({
    code: 'cover-unknown',
    message: `The plan has no cover "${called}".`,
    where,
    mend: near === null ? list : `Did you mean ${near}? ${list}`,
  });
}

const hides = (point: HoldPoint, cover: string) => point.covers.some((hiding) => hiding.cover === cover);

function outcome({ given }: CommandContext, found: Result<JobState>, job: string | null): CommandOutcome {
  if (!found.ok) return issuesOutcome(...found.issues);
  const { holdPoints, covers } = jobHoldPoints(found.value);
  const called = given('cover');
  const only = covers.find(({ cover, letter }) => cover === called || letter === called);
  if (called !== undefined && only === undefined) return coverUnknown(called, covers, '--cover');
  const asked = only === undefined ? holdPoints : holdPoints.filter((point) => hides(point, only.cover));
  const listed = given('open') === undefined ? asked : asked.filter(isOpen);
  const counts = {
    open: asked.filter(({ state }) => state === 'open').length,
    closed: asked.filter(({ state }) => state === 'closed').length,
    reOpened: asked.filter(({ state }) => state === 're-opened').length,
  };
  const shortest = shortestTests(asked.filter(isOpen));
  const shown = only === undefined ? covers : [only];
  return {
    status: 0,
    answer: { schema: 'kickpanel.hold-points/1', job, counts, holdPoints: listed, covers: shown, shortest },
    text: (style) => {
      if (holdPoints.length === 0) return 'The plan opens no hold points yet.\n';
      const sum = `${counts.closed} of ${asked.length} proven, ${counts.open} open, ${counts.reOpened} open again.`;
      const lines = [...listed.flatMap(pointLines), sum, '', ...shown.map(coverLine), '', ...testLines(shortest)];
      return inWidth(lines, style);
    },
  };
}

export const holdPoints: JobPart = {
  operands: [1, 1],
  usage: 'job hold-points JOB [--open] [--cover ID] [--plan F.json]',
  async run(call) {
    const found = await stateAsked(call);
    return outcome(call, found, found.ok ? found.value.id : null);
  },
  withoutJob: (context) => outcome(context, stateOfFile(context), null),
};

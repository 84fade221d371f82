// What is unproven behind each cover, and the shortest list of tests that clears it.
import { z } from 'zod';
import { coverStates } from '../../plan/vehicle-parts.ts';
import { circumstancesOf } from '../projections/circumstances.ts';
import type { JobState } from '../projections/job-state.ts';
import { type PlanView, planView } from '../rules/plan-view.ts';
import { type HoldPoint, holdPointsIn, isOpen } from './hold-points.ts';
import { type ShortestTests, shortestTests } from './shortest-tests.ts';

export const coverReportSchema = z.object({
  cover: z.string().describe('id in the plan'),
  letter: z.string().nullable().describe('on the drawing of the vehicle'),
  name: z.string().nullable(),
  state: z.enum([...coverStates, 'unknown']),
  open: z.array(z.string()).describe('hold points behind it that nothing proves'),
  closed: z.array(z.string()),
  passedOver: z
    .object({ name: z.string(), why: z.string(), when: z.string(), entry: z.string(), holdPoints: z.array(z.string()) })
    .nullable()
    .describe('who fastened it over what was not proven then'),
});

export type CoverReport = z.infer<typeof coverReportSchema>;

const behind = (points: readonly HoldPoint[], cover: string) =>
  points.filter(({ covers }) => covers.some((hiding) => hiding.cover === cover));

function report(view: PlanView, points: readonly HoldPoint[], cover: string): CoverReport {
  const stated = view.coverIn(view.record.covers, cover);
  const { name, why, when, entry, holdPoints } = stated?.passedOver ?? {};
  const over =
    name === undefined || why === undefined || when === undefined || entry === undefined || holdPoints === undefined
      ? null
      : { name, why, when, entry, holdPoints };
  const hidden = behind(points, cover);
  return {
    cover,
    letter: view.letterOf(cover) ?? null,
    name: view.part('cover', cover)?.name ?? null,
    state: stated?.state ?? 'unknown',
    open: hidden.filter(isOpen).map(({ id }) => id),
    closed: hidden.filter((point) => !isOpen(point)).map(({ id }) => id),
    passedOver: over,
  };
}

export interface JobHoldPoints {
  holdPoints: HoldPoint[];
  /** Covers of the plan, in its order. */
  covers: CoverReport[];
}

/** All hold points of a job, and what they come to behind each cover. */
export function jobHoldPoints(state: JobState): JobHoldPoints {
  const view = planView(state.plan.parts, circumstancesOf(state));
  const holdPoints = holdPointsIn(view);
  return { holdPoints, covers: view.plan.cover.map(({ id }) => report(view, holdPoints, id)) };
}

/** The cover of the plan that is called so, by its id or by its letter; undefined where the plan has none. */
export function planCoverNamed(state: JobState, called: string): { cover: string; letter: string | null } | undefined {
  const view = planView(state.plan.parts, circumstancesOf(state));
  const cover =
    view.plan.cover.find(({ id }) => id === called) ?? view.plan.cover.find(({ id }) => view.letterOf(id) === called);
  return cover === undefined ? undefined : { cover: cover.id, letter: view.letterOf(cover.id) ?? null };
}

/** What was last said of a cover, whether it was called by its id in the plan or by its letter. */
export function statedCover(state: JobState, called: string): JobState['covers'][number] | undefined {
  const named = planCoverNamed(state, called);
  const names = new Set([called, named?.cover, named?.letter]);
  const stated = state.covers.filter(({ cover }) => names.has(cover));
  return stated.reduce<(typeof stated)[number] | undefined>(
    (last, one) => (last === undefined || one.since >= last.since ? one : last),
    undefined,
  );
}

export interface BehindCover {
  open: HoldPoint[];
  shortest: ShortestTests;
}

/**
 * What is unproven behind a cover, and the fewest tests that clear it.
 *
 * @param called  id or letter of the cover; one that the plan does not have hides nothing that is known
 */
export function unprovenBehind(state: JobState, called: string): BehindCover {
  const known = planCoverNamed(state, called);
  const open = known === undefined ? [] : behind(jobHoldPoints(state).holdPoints, known.cover).filter(isOpen);
  return { open, shortest: shortestTests(open) };
}

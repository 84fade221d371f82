// The hold points of a job as its screens lay them out: behind which cover, which are open, and what to say of them.
import { type CoverReport, jobHoldPoints } from '../../job/hold-points/behind-cover.ts';
import { type HoldPoint, isOpen } from '../../job/hold-points/hold-points.ts';
import type { HoldPointStage } from '../../job/hold-points/ids.ts';
import { type ShortestTests, shortestTests } from '../../job/hold-points/shortest-tests.ts';
import type { JobView } from '../api-client.ts';
import type { stageNames } from '../shell/stages.ts';
import { countWords } from '../shop/job-words.ts';

/** What lies behind one cover, or behind none. */
export interface PointGroup {
  /** Id of the cover in the plan; null where no cover hides the points. */
  cover: CoverReport | null;
  /** For a heading: "Behind left door card". */
  title: string;
  points: HoldPoint[];
  open: number;
}

export interface Proof {
  points: HoldPoint[];
  covers: CoverReport[];
  /** In the order of the plan's covers, then what no cover hides. */
  groups: PointGroup[];
  open: HoldPoint[];
  shortest: ShortestTests;
}

export const coverName = ({ name, cover }: { name: string | null; cover: string }): string => name ?? cover;

const lowerFirst = (text: string): string => `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;

function group(title: string, cover: CoverReport | null, points: HoldPoint[]): PointGroup[] {
  return points.length === 0 ? [] : [{ title, cover, points, open: points.filter(isOpen).length }];
}

/** Points laid out by cover. One that more covers hide stands behind each of them. */
export function groupsOf(points: readonly HoldPoint[], covers: readonly CoverReport[]): PointGroup[] {
  const behind = (id: string) => points.filter((point) => point.covers.some(({ cover }) => cover === id));
  const bare = points.filter((point) => point.covers.length === 0);
  return [
    ...covers.flatMap((cover) => group(`Behind ${lowerFirst(coverName(cover))}`, cover, behind(cover.cover))),
    ...group(
      'Behind no cover',
      null,
      bare.filter(({ coversKnown }) => coversKnown),
    ),
    ...group(
      'The plan does not say what hides these',
      null,
      bare.filter(({ coversKnown }) => !coversKnown),
    ),
  ];
}

/** All of it, from the job as the server last told it. */
export function proofOf({ job }: JobView): Proof {
  const { holdPoints, covers } = jobHoldPoints(job);
  const open = holdPoints.filter(isOpen);
  return {
    points: holdPoints,
    covers,
    groups: groupsOf(holdPoints, covers),
    open,
    shortest: shortestTests(open),
  };
}

const stagePlaces: Record<HoldPointStage, (typeof stageNames)[number]> = {
  loom: 'Loom',
  'first-sound': 'First sound',
  gains: 'Gains',
  refit: 'Refit',
  'hand-over': 'Hand over',
};

export interface StageCount {
  stage: HoldPointStage;
  name: (typeof stageNames)[number];
  open: number;
  all: number;
}

/** How many are open in each stage that has any, in the order of the stages. */
export function stageCounts(points: readonly HoldPoint[]): StageCount[] {
  const stages = Object.keys(stagePlaces) as HoldPointStage[];
  return stages.flatMap((stage) => {
    const of = points.filter((point) => point.stage === stage);
    return of.length === 0 ? [] : [{ stage, name: stagePlaces[stage], open: of.filter(isOpen).length, all: of.length }];
  });
}

/** "4 open", "all proven". */
export const openWords = (open: number): string => (open === 0 ? 'all proven' : `${open} open`);

/** What a test takes: known from practice, not measured. */
export const minutesWords = (minutes: number): string => `about ${Math.max(1, Math.ceil(minutes))} min by practice`;

/** What the screen of hold points opens with. */
export function proofSentence({ points, open, covers, shortest }: Proof): string {
  if (points.length === 0) return 'Nothing has to be proven yet. The plan opens hold points.';
  if (open.length === 0) return 'Every hold point is closed.';
  const hiding = covers.filter((cover) => cover.open.length > 0).length;
  const behind =
    hiding === 0 ? '' : `, behind ${countWords(hiding, 'cover', 'covers').toLowerCase()} or in plain sight`;
  const tests = countWords(shortest.tests.length, 'test clears', 'tests clear');
  return `${countWords(open.length, 'point is', 'points are')} unproven${behind}. ${tests} them.`;
}

/** The same for one cover. */
export function coverSentence({ cover, open, title, points }: PointGroup): string {
  const where = cover === null ? title : coverName(cover);
  if (open === 0)
    return `${where}: ${points.length === 1 ? 'the one point is' : `all ${points.length} points are`} proven.`;
  return `${where} hides ${countWords(open, 'unproven point', 'unproven points').toLowerCase()}.`;
}

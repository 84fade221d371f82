// The picture of one place over frequency: the planned band filled, what was found as a line over it.
import type { NearCurve } from '../../job/near-walk/job-near-walk.ts';
import { plannedLevelDb } from '../../measurement/near-field/channel-fit.ts';
import type { NearPlanOutput } from '../../wiring/near-plan.ts';

export const bandWidth = 300;
export const bandHeight = 52;
/** One frequency axis for all rows, Hz. */
const axisHz = { from: 20, to: 20_000 };
/** From a little above full level down to where neighbours and noise are, dB. */
const axisDb = { top: 9, bottom: -33 };
const plannedPoints = 121;

export const bandX = (fHz: number): number =>
  (Math.log(fHz / axisHz.from) / Math.log(axisHz.to / axisHz.from)) * bandWidth;

const bandY = (levelDb: number): number => {
  const share = (axisDb.top - levelDb) / (axisDb.top - axisDb.bottom);
  return Math.min(1, Math.max(0, share)) * bandHeight;
};

const at = (fHz: number, levelDb: number): string => `${bandX(fHz).toFixed(1)} ${bandY(levelDb).toFixed(1)}`;

type Edges = Pick<NearPlanOutput, 'highPass' | 'lowPass'>;

/** What the planned filters let through, as a closed shape on the floor. */
export function plannedPath(edges: Edges): string {
  const fHz = Array.from(
    { length: plannedPoints },
    (_, k) => axisHz.from * (axisHz.to / axisHz.from) ** (k / (plannedPoints - 1)),
  );
  const levels = plannedLevelDb(edges, fHz);
  return `M0 ${bandHeight}L${fHz.map((f, k) => at(f, levels[k])).join('L')}L${bandWidth} ${bandHeight}Z`;
}

/** Laid over the plan: the middle of the differences where the driver itself is heard and should be. */
function shiftDb(edges: Edges, own: NearCurve['points']): number {
  const planned = plannedLevelDb(
    edges,
    own.map(({ fHz }) => fHz),
  );
  const differences = own.flatMap(({ levelDb }, k) => (planned[k] > -6 ? [planned[k] - levelDb] : []));
  differences.sort((a, b) => a - b);
  return differences[differences.length >> 1] ?? 0;
}

/** The found line as unbroken pieces: where the driver stands out, and where it is drowned by its neighbours. */
export function foundPaths(edges: Edges, { points }: NearCurve): { own: string; drowned: string } {
  const inside = points.filter(({ fHz }) => fHz >= axisHz.from && fHz <= axisHz.to);
  const shift = shiftDb(
    edges,
    inside.filter(({ own }) => own),
  );
  const pieces = (own: boolean): string => {
    let path = '';
    let pen = false;
    for (const point of inside) {
      if (point.own === own) path += `${pen ? 'L' : 'M'}${at(point.fHz, point.levelDb + shift)}`;
      pen = point.own === own;
    }
    return path;
  };
  return { own: pieces(true), drowned: pieces(false) };
}

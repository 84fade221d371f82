// In which order a person comes by the places of a car.
import type { PartOf } from '../../plan/plan.ts';
import { positions, rows } from '../../plan/vehicle-parts.ts';

type Place = PartOf<'place'>;

/** Rows from the front to the back. */
const rowAt = ({ row }: Place) => (row === undefined ? rows.length : rows.indexOf(row));

/**
 * How far along the walk a place is: down the left side from the dash to the boot, across the boot, up the right side, the
 * middle of the front last. What is known of no place comes at the end.
 */
function stageOf(place: Place | undefined): number[] {
  if (place === undefined) return [4, 0, 0];
  const row = rowAt(place);
  const position = place.position === undefined ? positions.length : positions.indexOf(place.position);
  const atTheBack = row >= rows.indexOf('rear');
  if (place.side === 'left') return [0, row, position];
  if (place.side === 'right') return [2, -row, position];
  return atTheBack ? [1, -row, position] : [3, -row, position];
}

/** L2 before L10. */
function byId(a: string, b: string): number {
  const parts = (id: string) => id.split(/(\d+)/).map((text, n) => (n % 2 === 1 ? Number(text) : text));
  const [first, second] = [parts(a), parts(b)];
  for (let n = 0; n < Math.min(first.length, second.length); n++) {
    if (first[n] !== second[n]) return first[n] < second[n] ? -1 : 1;
  }
  return first.length - second.length;
}

/** Sorts what has an id and a place, or none, into the order of the walk. */
export function byWalk(
  a: { id: string; place: Place | undefined },
  b: { id: string; place: Place | undefined },
): number {
  const [first, second] = [stageOf(a.place), stageOf(b.place)];
  const at = first.findIndex((stage, n) => stage !== second[n]);
  return at < 0 ? byId(a.id, b.id) : first[at] - second[at];
}

// Where the places of a walk stand when they are drawn from above: three columns, as many rows as the car needs.
import type { PartOf, Plan } from '../../plan/plan.ts';
import type { WalkedChannel } from '../../wiring/plan-of-job.ts';

export interface PlacedButton {
  place: string;
  name: string;
  column: 1 | 2 | 3;
  row: number;
}

const rowOrder = ['dash', 'front', 'second', 'third', 'rear', 'boot'];
const columns = { left: 1, centre: 2, right: 3 } as const;

/** Such as a door behind the pillar of the same row. */
const depth = (place: PartOf<'place'> | undefined): number => {
  const row = rowOrder.indexOf(place?.row ?? '');
  const inRow = ['pillar', 'dash-top'].includes(place?.position ?? '') ? 0 : 0.5;
  return (row < 0 ? rowOrder.length : row) + inRow;
};

/** No two on one spot: the nose is up, left is left. */
export function carGrid(plan: Plan, channels: readonly WalkedChannel[]): PlacedButton[] {
  const sorted = channels
    .map(({ place: id, placeName: name }) => ({ id, name, place: plan.place.find((known) => known.id === id) }))
    .map((one) => ({ ...one, depth: depth(one.place), column: columns[one.place?.side ?? 'centre'] }))
    .sort((a, b) => a.depth - b.depth);
  const taken = new Set<string>();
  let row = 0;
  let last = Number.NEGATIVE_INFINITY;
  return sorted.map(({ id, name, column, depth: at }): PlacedButton => {
    if (at > last || taken.has(`${row} ${column}`)) row++;
    last = at;
    taken.add(`${row} ${column}`);
    return { place: id, name, column, row };
  });
}

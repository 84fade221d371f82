// Which drivers of one side share a crossing, and which are a pair: from kinds and places.
import type { PartOf } from '../../plan/plan.ts';
import type { Lane, PlanView } from './plan-view.ts';

/** A driver with the channel that filters it. */
export interface Way {
  driver: PartOf<'driver'>;
  lane: Lane;
  channel: PartOf<'channel'>;
  place: PartOf<'place'>;
}

/** From the deepest up; a full-range driver takes the place of a midbass above a sub. */
const order = ['sub', 'midbass', 'full-range', 'mid', 'tweeter'] as const;

/** Drivers of which kind, place and channel are known. */
export function waysOf({ lanes, part }: PlanView): Way[] {
  return lanes.flatMap((lane) =>
    lane.drivers.flatMap((driver) => {
      const channel = lane.channels.at(0);
      const place = part('place', driver.place);
      return channel === undefined || place === undefined || driver.kind === undefined
        ? []
        : [{ driver, lane, channel, place }];
    }),
  );
}

const isFront = ({ row }: PartOf<'place'>) => row === 'front' || row === 'dash';

/** Lower and upper driver at each crossing of the front, each pair of channels once. */
export function crossings(view: PlanView): [Way, Way][] {
  const ways = waysOf(view);
  const found = new Map<string, [Way, Way]>();
  for (const side of ['left', 'right']) {
    const stack = order.flatMap((kind) => {
      const of = ways.filter(
        ({ driver, place }) => driver.kind === kind && (kind === 'sub' || (isFront(place) && place.side === side)),
      );
      return of.slice(0, 1);
    });
    stack.slice(1).forEach((upper, n) => {
      found.set(`${stack[n].channel.id} ${upper.channel.id}`, [stack[n], upper]);
    });
  }
  return [...found.values()];
}

/** Left and right drivers of one kind in one row and position, subs left out unless they have sides. */
export function pairs(view: PlanView): [Way, Way][] {
  const ways = waysOf(view);
  const right = ways.filter(({ place }) => place.side === 'right');
  return ways
    .filter(({ place }) => place.side === 'left')
    .flatMap((left) => {
      const other = right.find(
        ({ driver, place }) =>
          driver.kind === left.driver.kind && place.row === left.place.row && place.position === left.place.position,
      );
      return other === undefined ? [] : [[left, other] as [Way, Way]];
    });
}

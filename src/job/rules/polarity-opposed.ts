import { pairs, type Way, waysOf } from './neighbours.ts';
import type { PlanView } from './plan-view.ts';
import type { Rule } from './rule.ts';
import { called } from './words.ts';

/** What the plan means, settings and wiring together; undefined where it does not say. */
function polarityOf({ channel, lane }: Way): number | undefined {
  return channel.polarity === undefined ? undefined : channel.polarity * (lane.load.polarity ?? 1);
}

/** Front and rear drivers of one kind on one side. */
function frontAndRear(view: PlanView): [Way, Way][] {
  const ways = waysOf(view);
  const front = ways.filter(({ place }) => place.row === 'front' || place.row === 'dash');
  const rear = ways.filter(({ place }) => place.row !== 'front' && place.row !== 'dash');
  return front.flatMap((way) => {
    const behind = rear.find(({ driver, place }) => driver.kind === way.driver.kind && place.side === way.place.side);
    return behind === undefined ? [] : [[way, behind] as [Way, Way]];
  });
}

/** */
export const polarityOpposed: Rule = {
  id: 'X-06',
  code: 'polarity-opposed',
  why: 'Two drivers that push and pull against each other cancel where the ear hears them as one.',
  check: (view) =>
    [...pairs(view), ...frontAndRear(view)].map(([a, b]) => {
      const place = `channels ${a.channel.id} and ${b.channel.id}`;
      const [first, second] = [polarityOf(a), polarityOf(b)];
      if (first === undefined || second === undefined) return { place, needs: 'the polarity of both' };
      if (first === second) return null;
      const polarity = b.channel.polarity === 1 ? (-1 as const) : (1 as const);
      return {
        severity: 'fix',
        place,
        message: `${called(a.driver)} and ${called(b.driver)} are in opposite polarity: bass cancels.`,
        values: { first, second },
        clears: `Turn the polarity of ${b.channel.id}.`,
        changes: [{ part: 'channel', id: b.channel.id, value: { ...b.channel, polarity } }],
      };
    }),
};

import { sameValue } from '../../plan/changes.ts';
import type { PartOf } from '../../plan/plan.ts';
import { pairs, type Way } from './neighbours.ts';
import type { PlanView } from './plan-view.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** Speed of sound at 20 C. */
const soundMPerS = 343.2;
const delayToleranceMs = 0.2;

type Filter = PartOf<'channel'>['highPass'];
const filterWords = (filter: Filter) =>
  filter === undefined ? 'not set' : filter === null ? 'none' : `${said(filter.fHz)} Hz, ${6 * filter.order} dB`;
const driverWords = ({ driver }: Way) => [driver.make, driver.model, driver.coilOhm].join(' ');

/** How much more delay than distance explains, or null where no seat knows both places. */
function delayUnexplainedMs({ plan }: PlanView, left: Way, right: Way): number | null {
  const differenceMs = Math.abs((left.channel.delayMs ?? 0) - (right.channel.delayMs ?? 0));
  if (differenceMs <= delayToleranceMs) return 0;
  for (const { distances = [] } of plan.seat) {
    const to = (way: Way) => distances.find(({ place }) => place === way.place.id)?.distanceM;
    const [leftM, rightM] = [to(left), to(right)];
    if (leftM === undefined || rightM === undefined) continue;
    return Math.max(0, differenceMs - (1000 * Math.abs(leftM - rightM)) / soundMPerS);
  }
  return null;
}

/** */
export const pairDiffers: Rule = {
  id: 'X-05',
  code: 'pair-differs',
  why: 'Left and right that differ pull the picture to one side.',
  check: (view) =>
    pairs(view).map(([left, right]) => {
      const place = `channels ${left.channel.id} and ${right.channel.id}`;
      const differences: [string, string, string][] = [];
      const compare = (what: string, a: string, b: string) => {
        if (a !== b) differences.push([what, a, b]);
      };
      compare('driver', driverWords(left), driverWords(right));
      for (const edge of ['highPass', 'lowPass'] as const) {
        const [a, b] = [left.channel[edge], right.channel[edge]];
        if (a === undefined || b === undefined) return { place, needs: 'the crossover of both' };
        if (!sameValue(a, b))
          differences.push([edge === 'highPass' ? 'high-pass' : 'low-pass', filterWords(a), filterWords(b)]);
      }
      const gains = [left.channel.gainDb ?? 0, right.channel.gainDb ?? 0];
      if (Math.abs(gains[0] - gains[1]) > 1) differences.push(['gain', `${said(gains[0])} dB`, `${said(gains[1])} dB`]);
      const beyondMs = delayUnexplainedMs(view, left, right);
      if (beyondMs !== null && beyondMs > delayToleranceMs) {
        differences.push(['delay', `${said(left.channel.delayMs ?? 0)} ms`, `${said(right.channel.delayMs ?? 0)} ms`]);
      }
      if (differences.length === 0)
        return beyondMs === null ? { place, needs: 'how far both are from the seat' } : null;
      const words = differences.map(([what, a, b]) => `${what}: left ${a}, right ${b}`).join('; ');
      return {
        severity: 'fix',
        place,
        message: `${left.channel.id} and ${right.channel.id} are a pair and differ. ${words}. Intended?`,
        values: Object.fromEntries(
          differences.flatMap(([what, a, b]) => [
            [`${what} left`, a],
            [`${what} right`, b],
          ]),
        ),
        clears: 'Make them the same, or accept it with the reason.',
      };
    }),
};

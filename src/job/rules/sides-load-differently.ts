import { nominalOhm } from './loads.ts';
import { pairs } from './neighbours.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** L-06. */
export const sidesLoadDifferently: Rule = {
  id: 'L-06',
  code: 'sides-load-differently',
  why: 'Unlike loads play at unlike levels.',
  check: (view) =>
    pairs(view).map(([left, right]) => {
      const place = `loads ${left.lane.load.id} and ${right.lane.load.id}`;
      const [leftOhm, rightOhm] = [nominalOhm(left.lane), nominalOhm(right.lane)];
      if (leftOhm === undefined || rightOhm === undefined) return { place, needs: 'the ohms of their coils' };
      if (Math.max(leftOhm, rightOhm) <= 1.05 * Math.min(leftOhm, rightOhm)) return null;
      const message = `Left sees ${said(leftOhm)} ohm, right ${said(rightOhm)} ohm.`;
      return { severity: 'fix', place, message, values: { leftOhm, rightOhm }, clears: 'Wire both sides alike.' };
    }),
};

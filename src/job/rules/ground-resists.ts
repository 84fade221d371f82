import { groundFromDrop } from '../../electrical/ground-from-drop.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** E-13. */
export const groundResists: Rule = {
  id: 'E-13',
  code: 'ground-resists',
  why: 'A bad ground loses power, warms, and whines.',
  check: ({ plan, readings }) =>
    plan.ground.map((ground) => {
      const place = `ground ${ground.id}`;
      const reading = readings(ground.id, 'ground-drop').at(-1);
      const dropV = reading?.value;
      if (typeof dropV !== 'number') return { place, needs: 'the volts across it while current flows' };
      const { currentA } = reading ?? {};
      if (currentA === undefined || currentA <= 0) return { place, needs: 'the current that flowed meanwhile' };
      const { milliOhm, verdict } = groundFromDrop({ currentA, dropV });
      if (verdict !== 'bad') return null;
      const message = `Ground of ${ground.of ?? ground.id} drops ${said(dropV)} V at ${said(currentA)} A (${said(milliOhm)} mOhm). Clean or move it.`;
      return {
        severity: 'fix',
        place,
        message,
        values: { dropV, currentA, milliOhm },
        clears: 'Bare metal, a crimped lug, and a reading of 5 mOhm or less.',
      };
    }),
};

import type { Rule } from './rule.ts';

/** */
export const passiveLevelUnchecked: Rule = {
  id: 'X-09',
  code: 'passive-level-unchecked',
  why: 'A passive set has a level setting and a capacitor of its own, and nobody sees them from the processor.',
  check: ({ plan }) =>
    plan.load
      .filter(({ passive }) => passive !== undefined)
      .map(({ id, passive }) => {
        const place = `load ${id}`;
        if (passive?.tweeterLevelChecked === undefined)
          return { place, needs: 'whether its tweeter level was checked' };
        if (passive.tweeterLevelChecked) return null;
        const message = `Passive set ${id}: check the tweeter level setting and the capacitor's value.`;
        return {
          severity: 'note',
          place,
          message,
          values: { passiveHz: passive.fHz },
          clears: 'Check and record them.',
        };
      }),
};

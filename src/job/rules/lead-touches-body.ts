import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** What counts as open, ohm. */
const openOhm = 100_000;

/** L-10. */
export const leadTouchesBody: Rule = {
  id: 'L-10',
  code: 'lead-touches-body',
  why: 'An output lead on body metal shorts the amplifier as soon as it plays.',
  check: ({ plan, readings }) =>
    plan.lead
      .filter(({ kind }) => kind === 'speaker')
      .map(({ id }) => {
        const place = `lead ${id}`;
        const value = readings(id, 'to-body').at(-1)?.value;
        if (value === undefined) return { place, needs: 'what it reads to body metal' };
        if (value === 'open' || value >= openOhm) return null;
        const message = `${id} touches body metal: it reads ${said(value)} ohm.`;
        return {
          severity: 'stop',
          place,
          message,
          values: { toBodyOhm: value },
          clears: 'Find where it touches and read it again: it must be open.',
        };
      }),
};

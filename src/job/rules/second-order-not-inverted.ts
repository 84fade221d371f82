import { crossings } from './neighbours.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** Two second-order halves are half a turn apart at the corner. */
export const secondOrderNotInverted: Rule = {
  id: 'X-07',
  code: 'second-order-not-inverted',
  why: 'Halves of 12 dB per octave cancel at their corner unless one is inverted.',
  check: (view) =>
    crossings(view).map(([lower, upper]) => {
      const place = `channels ${lower.channel.id} and ${upper.channel.id}`;
      const { lowPass, polarity: below } = lower.channel;
      const { highPass, polarity: above } = upper.channel;
      if (lowPass === undefined || highPass === undefined) return { place, needs: 'the crossover between them' };
      const second = (filter: typeof lowPass) => filter?.family === 'linkwitz-riley' && filter.order === 2;
      if (!second(lowPass) || !second(highPass)) return null;
      if (below === undefined || above === undefined) return { place, needs: 'the polarity of both' };
      if (below !== above) return null;
      const fHz = highPass?.fHz ?? 0;
      const message = `12 dB slopes at ${said(fHz)} Hz normally need one way inverted; verify by a take.`;
      return {
        severity: 'note',
        place,
        message,
        values: { fHz },
        clears: `Invert ${upper.channel.id}, or prove it by a take.`,
      };
    }),
};

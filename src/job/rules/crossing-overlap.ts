import { crossings } from './neighbours.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Trade practice: an overlap from 1.5 up, unless both edges are steep. */
export const crossingOverlap: Rule = {
  id: 'X-02',
  code: 'crossing-overlap',
  why: 'Two drivers that play the same from different places cancel at some frequencies.',
  check: (view) =>
    crossings(view).map(([lower, upper]) => {
      const place = `channels ${lower.channel.id} and ${upper.channel.id}`;
      const { lowPass } = lower.channel;
      const { highPass } = upper.channel;
      if (lowPass === undefined || highPass === undefined) return { place, needs: 'the crossover between them' };
      if (lowPass === null || highPass === null || lowPass.fHz <= 1.5 * highPass.fHz) return null;
      if (lowPass.order >= 4 && highPass.order >= 4) return null;
      const message = `${called(lower.driver)} and ${called(upper.driver)} overlap from ${said(highPass.fHz)} to ${said(lowPass.fHz)} Hz: comb filtering is likely.`;
      const clears = 'Bring the two corners together, or use 24 dB per octave on both.';
      return { severity: 'note', place, message, values: { lowPassHz: lowPass.fHz, highPassHz: highPass.fHz }, clears };
    }),
};

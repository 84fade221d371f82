import { partOfTerminal } from '../../plan/networks.ts';
import type { Rule } from './rule.ts';
import { called } from './words.ts';

/** S-12. */
export const outputsTooFew: Rule = {
  id: 'S-12',
  code: 'outputs-too-few',
  why: 'Drivers that are planned active need an output each.',
  check: ({ plan }) =>
    plan.processor.map((processor) => {
      const place = `processor ${processor.id}`;
      const needed = plan.channel.filter(
        ({ output, spare }) => !spare && (output === undefined || partOfTerminal(output) === processor.id),
      ).length;
      if (processor.outputs === undefined) return { place, needs: 'how many outputs it has' };
      const outputs = processor.outputs.length;
      if (plan.processor.length > 1 || needed <= outputs) return null;
      const message = `${called(processor)} has ${outputs} outputs for ${needed} active channels.`;
      return { severity: 'fix', place, message, values: { outputs, needed }, clears: 'Join channels, or add outputs.' };
    }),
};

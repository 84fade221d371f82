import { partOfTerminal } from '../../plan/networks.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** S-09. */
export const speakerLevelIntoLine: Rule = {
  id: 'S-09',
  code: 'speaker-level-into-line',
  why: 'Speaker level into a line input destroys it, and a bridged output tied to ground destroys itself.',
  check: ({ plan, part }) =>
    plan.processor.flatMap(({ id, inputs = [] }) =>
      inputs.map((input) => {
        const place = `input ${id}/${input.id}`;
        const source = part('source', partOfTerminal(input.from ?? ''));
        if (source === undefined) return null;
        if (source.kind === undefined) return { place, needs: `whether ${source.id} gives line or speaker level` };
        if (source.kind !== 'speaker') return null;
        const volts = source.cleanV === undefined ? '' : ` (${said(source.cleanV)} V)`;
        const values = { source: source.id, ...(source.cleanV === undefined ? {} : { cleanV: source.cleanV }) };
        const clears = 'Use a differential high-level input, or an adaptor that is one.';
        const wrong = { severity: 'stop' as const, place, values, clears };
        if (input.adaptor === 'grounded' && source.bridgedOutput !== false) {
          if (source.bridgedOutput === undefined)
            return { place, needs: `whether the outputs of ${source.id} are bridged` };
          return {
            ...wrong,
            message: `${called(source)} has bridged outputs${volts}, and the adaptor grounds their minus.`,
          };
        }
        if (input.adaptor === 'differential' || input.adaptor === 'grounded' || input.kind === 'speaker') return null;
        if (input.kind === undefined) return { place, needs: 'which level it takes' };
        return {
          ...wrong,
          message: `${called(source)} is speaker level${volts}: use a differential high-level input.`,
        };
      }),
    ),
};

import { partOfTerminal } from '../../plan/networks.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** S-05. */
export const sourceTooHot: Rule = {
  id: 'S-05',
  code: 'source-too-hot',
  why: 'An input that is given more than it takes clips, whatever its own meter says.',
  check: ({ plan, part }) =>
    plan.processor.flatMap(({ id, inputs = [] }) =>
      inputs
        .filter(({ from }) => from !== undefined)
        .map((input) => {
          const place = `input ${id}/${input.id}`;
          const source = part('source', partOfTerminal(input.from ?? ''));
          if (source === undefined) return null;
          const { cleanV } = source;
          const { maxV } = input;
          if (source.kind === 'digital') return null;
          if (cleanV === undefined) return { place, needs: `how many clean volts ${source.id} gives` };
          if (maxV === undefined) return { place, needs: 'how many volts it takes' };
          if (cleanV <= maxV) return null;
          const padDb = 20 * Math.log10(cleanV / maxV);
          const message = `${called(source)} gives ${said(cleanV)} V clean; the input takes ${said(maxV)} V: attenuate ${said(padDb)} dB or use the high range.`;
          const clears = `Put ${said(padDb)} dB between them, or choose a range of ${said(cleanV)} V or more.`;
          return { severity: 'fix', place, message, values: { cleanV, maxV, padDb }, clears };
        }),
    ),
};

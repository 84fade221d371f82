import type { Rule } from './rule.ts';
import { called, listed } from './words.ts';

/** S-11. */
export const factoryProcessingLeft: Rule = {
  id: 'S-11',
  code: 'factory-processing-left',
  why: 'A tune on top of a signal that the factory has bent chases its own tail.',
  check: ({ plan }) =>
    plan.source.map((source) => {
      const place = `source ${source.id}`;
      const { factoryProcessing, factoryProcessingCorrected, kind } = source;
      if (factoryProcessing === undefined)
        return kind === 'speaker' ? { place, needs: 'what the factory does to its signal' } : null;
      if (factoryProcessing.length === 0 || factoryProcessingCorrected === true) return null;
      const what = listed(factoryProcessing);
      const message = `${called(source)}: factory processing found (${what}). Correct it or take a clean source.`;
      return {
        severity: 'note',
        place,
        message,
        values: { what },
        clears: 'Measure and undo it, or take the signal before it.',
      };
    }),
};

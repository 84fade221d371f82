import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** S-10. */
export const referenceAboveClean: Rule = {
  id: 'S-10',
  code: 'reference-above-clean',
  why: 'What the source distorts, nothing after it can mend.',
  check: ({ plan }) =>
    plan.source.map((source) => {
      const place = `source ${source.id}`;
      const { referenceStep, cleanStep } = source;
      if (referenceStep === undefined) return { place, needs: 'the volume step that is the reference' };
      if (cleanStep === undefined) return { place, needs: 'up to which step it is clean' };
      if (referenceStep <= cleanStep) return null;
      const message = `${called(source)} distorts above step ${said(cleanStep)}; the reference is ${said(referenceStep)}. Lower the reference volume.`;
      const changes = [{ part: 'source' as const, id: source.id, value: { ...source, referenceStep: cleanStep } }];
      return {
        severity: 'fix',
        place,
        message,
        values: { referenceStep, cleanStep },
        clears: `Set the reference to step ${said(cleanStep)}.`,
        changes,
      };
    }),
};

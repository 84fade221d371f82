import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** Longest stretch nearer than 0.2 m to power. */
const besideMaxM = 0.5;

/** S-08. */
export const signalLeadExposed: Rule = {
  id: 'S-08',
  code: 'signal-lead-exposed',
  why: 'A long unbalanced lead, or one beside power, picks up whine.',
  check: ({ plan }, { unbalancedLengthMaxM }) =>
    plan.lead
      .filter(({ kind }) => kind === 'signal')
      .map(({ id, balanced, lengthM, besidePowerM }) => {
        const place = `lead ${id}`;
        if (balanced === true) return null;
        if (balanced === undefined) return { place, needs: 'whether it is balanced' };
        const long = lengthM !== undefined && lengthM > unbalancedLengthMaxM;
        const beside = besidePowerM !== undefined && besidePowerM > besideMaxM;
        if (!long && !beside) {
          if (lengthM === undefined) return { place, needs: 'its length' };
          return besidePowerM === undefined ? { place, needs: 'how far it runs beside power' } : null;
        }
        const how = beside
          ? `runs ${said(besidePowerM)} m unbalanced beside power`
          : `is ${said(lengthM ?? 0)} m long and unbalanced`;
        const values = { ...(long ? { lengthM } : {}), ...(beside ? { besidePowerM } : {}) };
        const message = `${id} ${how}. Use a balanced one or route it elsewhere.`;
        return { severity: 'note', place, message, values, clears: 'Use a balanced lead, or keep 0.2 m from power.' };
      }),
};

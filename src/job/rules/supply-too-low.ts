import { arrivesAt } from './currents.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** E-09. */
export const supplyTooLow: Rule = {
  id: 'E-09',
  code: 'supply-too-low',
  why: 'Under its minimum supply an amplifier shuts down in the middle of a bass note.',
  check: (view, { supplyMinV }) =>
    view.plan.amplifier.map((amplifier) => {
      const place = `amplifier ${amplifier.id}`;
      const arrives = arrivesAt(view, amplifier);
      if ('needs' in arrives) return { place, needs: arrives.needs };
      const leastV = amplifier.supplyMinV ?? (amplifier.supplyV === 24 ? 2 * supplyMinV : supplyMinV);
      if (arrives.deviceV >= leastV) return null;
      const deviceV = Math.max(0, arrives.deviceV);
      const message = `${called(amplifier)} would see ${said(deviceV)} V and shut down; it needs ${said(leastV)} V.`;
      return { severity: 'stop', place, message, values: { deviceV, leastV }, clears: 'Use thicker or shorter cable.' };
    }),
};

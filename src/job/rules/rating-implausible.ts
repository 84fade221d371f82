import { amplifierClasses } from '../../electrical/amp-current.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Voltage at which amplifiers are rated (CTA-2006). */
const ratedAtV = 14.4;

/** E-15. Nothing takes more from the supply for long than its own fuses pass. */
export const ratingImplausible: Rule = {
  id: 'E-15',
  code: 'rating-implausible',
  why: 'A rating that the fuses cannot feed is no continuous power.',
  check: ({ plan }) =>
    plan.amplifier.map((amplifier) => {
      const place = `amplifier ${amplifier.id}`;
      const { ownFusesA, channels = [] } = amplifier;
      const usual = amplifier.class === undefined ? undefined : amplifierClasses[amplifier.class].efficiency;
      const efficiency = amplifier.efficiency ?? usual;
      if (ownFusesA === undefined || ownFusesA.length === 0) return { place, needs: 'its own fuses' };
      if (efficiency === undefined) return { place, needs: 'its class' };
      const most = channels.map(({ ratings = [] }) => Math.max(0, ...ratings.map(({ powerW }) => powerW)));
      if (most.length === 0 || most.includes(0)) return { place, needs: 'its rated power' };
      const claimedW = most.reduce((sum, powerW) => sum + powerW, 0);
      const possibleW =
        efficiency * (amplifier.supplyV === 24 ? 28 : ratedAtV) * ownFusesA.reduce((sum, a) => sum + a, 0);
      if (claimedW <= 1.2 * possibleW) return null;
      const message = `${called(amplifier)} claims ${said(claimedW)} W but its own fuses allow about ${said(possibleW)} W. Plan with ${said(possibleW)} W.`;
      return {
        severity: 'note',
        place,
        message,
        values: { claimedW, possibleW },
        clears: 'Enter continuous power by a standard.',
      };
    }),
};

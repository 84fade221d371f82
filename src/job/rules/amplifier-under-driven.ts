import { chainGains } from './chain-gains.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** S-04. */
export const amplifierUnderDriven: Rule = {
  id: 'S-04',
  code: 'amplifier-under-driven',
  why: 'An amplifier that never gets the volts it needs never gives its power.',
  check: (view) =>
    view.lanes.flatMap((lane) =>
      lane.channels
        .filter(({ output }) => output !== undefined)
        .map((channel) => {
          const place = `channel ${channel.id}`;
          const gains = chainGains(view, lane, channel, 'full-power');
          if (gains === null) return null;
          if ('needs' in gains) return { place, needs: gains.needs };
          const { shortDb, procOutV, ampSensV } = gains.set;
          if (shortDb <= 1e-9) return null;
          const message = `${called(gains.processor)} gives ${said(procOutV)} V; ${called(gains.amplifier)} needs at least ${said(ampSensV)} V for full power: ${said(shortDb)} dB short.`;
          return {
            severity: 'fix',
            place,
            message,
            values: { procOutV, ampSensMinV: ampSensV, shortDb },
            clears: 'Use a processor with more output, or an amplifier that needs less.',
          };
        }),
    ),
};

import type { Rule } from './rule.ts';
import { called } from './words.ts';

/** S-01. */
export const driverWithoutChannel: Rule = {
  id: 'S-01',
  code: 'driver-without-channel',
  why: 'A driver that no processor channel feeds stays silent, or plays what nobody set.',
  check: ({ plan, lanesOf }) =>
    plan.driver.map((driver) => {
      const place = `driver ${driver.id}`;
      const lanes = lanesOf(driver.id);
      if (lanes.length === 0) return { place, needs: 'which amplifier channel it is wired to' };
      if (lanes.some(({ channels }) => channels.some(({ output }) => output !== undefined))) return null;
      const message = `${called(driver)} has no processor channel.`;
      const amplifier = lanes[0].load.amplifier ?? 'its amplifier';
      return {
        severity: 'fix',
        place,
        message,
        values: { load: lanes[0].load.id },
        clears: `Give ${amplifier} a channel with an output of the processor.`,
      };
    }),
};

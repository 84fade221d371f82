import { goodToHz } from './driver-beams.ts';
import { crossings } from './neighbours.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Trade practice: a gap from 0.8 down. */
export const crossingGap: Rule = {
  id: 'X-01',
  code: 'crossing-gap',
  why: 'What no driver covers is missing from the music.',
  check: (view) =>
    crossings(view).map(([lower, upper]) => {
      const place = `channels ${lower.channel.id} and ${upper.channel.id}`;
      const { lowPass } = lower.channel;
      const { highPass } = upper.channel;
      if (lowPass === undefined || highPass === undefined) return { place, needs: 'the crossover between them' };
      if (lowPass === null || highPass === null || lowPass.fHz >= 0.8 * highPass.fHz) return null;
      const message = `Nothing covers ${said(lowPass.fHz)} to ${said(highPass.fHz)} Hz between ${called(lower.driver)} and ${called(upper.driver)}.`;
      const clears = `Let ${lower.channel.id} play up to ${said(highPass.fHz)} Hz, or ${upper.channel.id} down to ${said(lowPass.fHz)} Hz.`;
      // Up to where its cone still spreads sound, the lower driver risks nothing; the upper one, going down, its stroke.
      const goodHz = goodToHz(lower.driver);
      const raised = { ...lower.channel, lowPass: { ...lowPass, fHz: highPass.fHz } };
      const spreads = goodHz !== undefined && highPass.fHz <= goodHz;
      return {
        severity: 'fix',
        place,
        message,
        values: { lowPassHz: lowPass.fHz, highPassHz: highPass.fHz },
        clears,
        ...(spreads ? { changes: [{ part: 'channel' as const, id: raised.id, value: raised }] } : {}),
      };
    }),
};

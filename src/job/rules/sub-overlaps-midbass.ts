import { crossings } from './neighbours.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** */
export const subOverlapsMidbass: Rule = {
  id: 'X-03',
  code: 'sub-overlaps-midbass',
  why: 'A sub that plays far into the midbass makes a hump and pulls the bass to the rear.',
  check: (view, { subOverlap }) =>
    crossings(view)
      .filter(([lower]) => lower.driver.kind === 'sub')
      .map(([sub, midbass]) => {
        const place = `channels ${sub.channel.id} and ${midbass.channel.id}`;
        const { lowPass } = sub.channel;
        const { highPass } = midbass.channel;
        if (lowPass === undefined || highPass === undefined) return { place, needs: 'the crossover between them' };
        if (lowPass === null || highPass === null || lowPass.fHz <= (1 + subOverlap) * highPass.fHz) return null;
        const message = `The sub plays to ${said(lowPass.fHz)} Hz while the midbass starts at ${said(highPass.fHz)} Hz: hump, and bass pulled to the rear.`;
        const change = { ...sub.channel, lowPass: { ...lowPass, fHz: highPass.fHz } };
        return {
          severity: 'note',
          place,
          message,
          values: { lowPassHz: lowPass.fHz, highPassHz: highPass.fHz },
          clears: `Set the low-pass of ${sub.channel.id} to ${said(highPass.fHz)} Hz.`,
          changes: [{ part: 'channel', id: sub.channel.id, value: change }],
        };
      }),
};

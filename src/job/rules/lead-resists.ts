import { speakerCable } from '../../electrical/speaker-cable.ts';
import { conductorOf } from './cables.ts';
import { nominalOhm } from './loads.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** L-11. The ohms of the lead against those of what it feeds. */
export const leadResists: Rule = {
  id: 'L-11',
  code: 'lead-resists',
  why: 'A thin lead loses level and lets go of the cone.',
  check: ({ plan, lanes }) =>
    plan.lead
      .filter(({ kind }) => kind === 'speaker')
      .map((lead) => {
        const place = `lead ${lead.id}`;
        const lane = lanes.find(({ load }) => load.amplifier !== undefined && load.amplifier === lead.from);
        const loadOhm = lane === undefined ? undefined : nominalOhm(lane);
        const conductor = conductorOf(lead);
        if (conductor === undefined || lead.lengthM === undefined)
          return { place, needs: 'its size, material and length' };
        if (loadOhm === undefined) return { place, needs: 'the load that it feeds' };
        const { cableOhm, lossDb } = speakerCable(conductor, { lengthM: lead.lengthM, loadOhm, ampDamping: 1e6 });
        if (cableOhm <= 0.05 * loadOhm) return null;
        const message = `${lead.id}: ${said(cableOhm)} ohm of cable on ${said(loadOhm)} ohm, ${said(lossDb)} dB lost.`;
        const severity = cableOhm > 0.1 * loadOhm ? 'fix' : 'note';
        return {
          severity,
          place,
          message,
          values: { cableOhm, loadOhm, lossDb },
          clears: 'Use a thicker or shorter lead.',
        };
      }),
};

import { laneDrive } from './loads.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** L-03. */
export const loadAboveRatings: Rule = {
  id: 'L-03',
  code: 'load-above-ratings',
  why: 'Into a high load an amplifier gives little of what it could.',
  check: ({ lanes }) =>
    lanes
      .filter(({ load }) => load.amplifier !== undefined)
      .map((lane) => {
        const place = `load ${lane.load.id}`;
        const drive = laneDrive(lane);
        if (drive === undefined) return { place, needs: 'its ohms and the ratings of its amplifier' };
        const top = (lane.output?.ratings ?? []).reduce((most, rating) => (rating.ohm > most.ohm ? rating : most));
        const highestOhm = lane.load.bridgedWith === undefined ? top.ohm : 2 * top.ohm;
        if (drive.ohm <= 2 * highestOhm) return null;
        const message = `${lane.load.amplifier} gives only ${said(drive.watt)} W into ${said(drive.ohm)} ohm (${said(top.powerW)} W at ${said(top.ohm)}).`;
        return {
          severity: 'note',
          place,
          message,
          values: { loadOhm: drive.ohm, powerW: drive.watt },
          clears: 'Wire the coils to a lower load, if the amplifier takes it.',
        };
      }),
};

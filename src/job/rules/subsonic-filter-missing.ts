import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** D-12. */
export const subsonicFilterMissing: Rule = {
  id: 'D-12',
  code: 'subsonic-filter-missing',
  why: 'Below its tuning a vented box holds the cone no more: it moves, and nothing is heard.',
  check: ({ plan, part, lanesOf }) =>
    plan.driver
      .filter(({ enclosure }) => part('enclosure', enclosure)?.kind === 'vented')
      .flatMap((driver) =>
        lanesOf(driver.id).map(({ channels }) => {
          const place = `driver ${driver.id}`;
          const tuningHz = part('enclosure', driver.enclosure)?.tuningHz;
          if (tuningHz === undefined) return { place, needs: 'the tuning of its box' };
          const channel = channels.at(0);
          if (channel?.highPass === undefined) return { place, needs: 'the high-pass of its channel' };
          const { highPass } = channel;
          if (highPass !== null && highPass.fHz >= 0.6 * tuningHz) return null;
          const fHz = Math.round(0.75 * tuningHz);
          const set = { family: 'butterworth' as const, order: 4, ...highPass, fHz };
          const message = `Below ${said(tuningHz)} Hz the cone is unloaded: set a high-pass at ${fHz} Hz.`;
          return {
            severity: 'fix',
            place,
            message,
            values: { tuningHz, highPassHz: highPass?.fHz ?? 'none' },
            clears: `Set a high-pass at ${fHz} Hz on ${channel.id}.`,
            changes: [{ part: 'channel', id: channel.id, value: { ...channel, highPass: set } }],
          };
        }),
      ),
};

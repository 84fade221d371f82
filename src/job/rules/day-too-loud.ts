import { allowedTime } from '../../signals/exposure/allowed-time.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

const HALF_PCT = 50;
const WHOLE_PCT = 100;

/** P-04. Each person has an account of their own, so each seat is looked at alone. */
export const dayTooLoud: Rule = {
  id: 'P-04',
  code: 'day-too-loud',
  why: 'Hearing that is lost does not come back.',
  check: ({ plan }) =>
    plan.seat.map((seat) => {
      const place = `seat ${seat.id}`;
      const { pushMinutes, pushLevelDba, heardBeforePct = 0 } = seat;
      if (pushMinutes === undefined) return { place, needs: 'how long it is planned to be loud' };
      if (pushMinutes === 0) return null;
      if (pushLevelDba === undefined) return { place, needs: 'the level at the ear, protection counted' };
      const allowedMinutes = allowedTime(pushLevelDba);
      const dosePct = heardBeforePct + (100 * pushMinutes) / allowedMinutes;
      if (dosePct <= HALF_PCT * (1 + 1e-9)) return null;
      const before = heardBeforePct > 0 ? `, ${said(heardBeforePct)} % of it before` : '';
      const leftMinutes = Math.floor(((HALF_PCT - heardBeforePct) / 100) * allowedMinutes);
      const fits = leftMinutes > 0;
      return {
        severity: dosePct > WHOLE_PCT * (1 + 1e-9) ? 'stop' : 'note',
        place,
        message: `The planned loud time uses ${said(dosePct)} % of a day's noise dose for ${called(seat)} (${said(pushMinutes)} minutes at ${said(pushLevelDba)} dBA${before}).`,
        values: { dosePct, pushMinutes, pushLevelDba, heardBeforePct },
        clears: fits
          ? `Wear more protection, or keep to ${leftMinutes} minutes.`
          : 'Wear more protection, or leave it for another day.',
        ...(fits
          ? { changes: [{ part: 'seat' as const, id: seat.id, value: { ...seat, pushMinutes: leftMinutes } }] }
          : {}),
      };
    }),
};

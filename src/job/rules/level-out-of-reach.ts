import { bassCeilings } from './bass-ceiling.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

const limitWords = {
  excursion: 'the stroke of',
  thermal: 'the heat that is borne by',
  amplifier: 'amplifier and crossover of',
};

/** P-03. Looked at where bass is asked for: 30, 50 and 80 Hz; the one that is furthest out of reach is told. */
export const levelOutOfReach: Rule = {
  id: 'P-03',
  code: 'level-out-of-reach',
  why: 'What no part of the system can give is better known before the panels go on than at the hand-over.',
  check: (view) =>
    view.plan.seat.map((seat) => {
      const place = `seat ${seat.id}`;
      const { targetLevelDb: askedDb } = seat;
      if (askedDb === undefined) return { place, needs: 'the level that is asked for' };
      const { points, needs } = bassCeilings(view);
      if (points.length === 0) return { place, needs: needs ?? 'what plays the bass' };
      const { fHz, levelDb, limit, driver } = points.reduce((low, one) => (one.levelDb < low.levelDb ? one : low));
      if (askedDb <= levelDb) return null;
      // What is not counted yet could make up for it.
      if (needs !== undefined) return { place, needs };
      const reachDb = Math.floor(levelDb);
      const change = { part: 'seat' as const, id: seat.id, value: { ...seat, targetLevelDb: reachDb } };
      return {
        severity: 'note',
        place,
        message: `Asked ${said(askedDb)} dB at ${fHz} Hz for ${called(seat)}; forecast ceiling ${said(levelDb)} dB, limited by ${limitWords[limit]} ${driver}. It is good to about 4 dB.`,
        values: { askedDb, ceilingDb: levelDb, fHz, limit, driver },
        clears: `Ask for ${reachDb} dB, or plan more cone, power or box.`,
        ...(reachDb >= 40 ? { changes: [change] } : {}),
      };
    }),
};

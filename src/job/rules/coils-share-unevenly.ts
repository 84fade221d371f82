import { networkShares } from '../../drivers/loads/coil-network.ts';
import { coilOhms } from './loads.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** L-04. */
export const coilsShareUnevenly: Rule = {
  id: 'L-04',
  code: 'coils-share-unevenly',
  why: 'The coil that takes the most burns while the others idle.',
  check: ({ lanes }) =>
    lanes
      .filter(({ load }) => load.network !== undefined)
      .map((lane) => {
        const { load } = lane;
        const place = `load ${load.id}`;
        const ohms = coilOhms(lane, 'nominal');
        if (ohms === undefined || load.network === undefined) return { place, needs: 'the ohms of its coils' };
        const shares = networkShares(load.network, ohms);
        if (!shares.ok) return null;
        const parts = Object.values(shares.value.shares);
        const [most, least] = [Math.max(...parts), Math.min(...parts)];
        if (least > 0 && most <= 1.1 * least * (1 + 1e-9)) return null;
        const [mostPct, leastPct] = [100 * most, 100 * least];
        const message = `Coils of ${load.id} share power ${said(mostPct)} % : ${said(leastPct)} %. Use a balanced wiring.`;
        const severity = least > 0 && most <= 2 * least * (1 + 1e-9) ? 'note' : 'stop';
        return {
          severity,
          place,
          message,
          values: { mostPct, leastPct },
          clears: 'Wire them so that all coils work equally.',
        };
      }),
};

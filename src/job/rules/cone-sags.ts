import { coneSag } from '../../drivers/several-drivers.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** D-10. A cone that faces sideways keeps its middle. */
export const coneSags: Rule = {
  id: 'D-10',
  code: 'cone-sags',
  why: 'A cone off its middle has less stroke one way, and its suspension creeps over the years.',
  check: ({ plan }) =>
    plan.driver.map((driver) => {
      const place = `driver ${driver.id}`;
      const { facing, fsHz, xmaxMm } = driver;
      if (facing === 'listener' || facing === 'side') return null;
      if (fsHz === undefined) return { place, needs: 'its resonance' };
      if (xmaxMm === undefined) return { place, needs: 'how far its cone may move' };
      const { sagM, pctOfXmax, verdict } = coneSag(fsHz, xmaxMm / 1000);
      if (verdict === 'ok') return null;
      if (facing === undefined) return { place, needs: 'which way it faces' };
      const sagMm = 1000 * sagM;
      return {
        severity: 'note',
        place,
        message: `Weight shifts the cone of ${called(driver)} by ${said(sagMm)} mm (${said(pctOfXmax)} % of its stroke): it faces ${facing}.`,
        values: { sagMm, sagPct: pctOfXmax },
        clears: 'Let it face sideways, or turn it round every year.',
        changes: [{ part: 'driver', id: driver.id, value: { ...driver, facing: 'side' } }],
      };
    }),
};

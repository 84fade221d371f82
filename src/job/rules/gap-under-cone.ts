import { clearance } from '../../drivers/cabin.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Past its stroke. */
const ROOM_MM = 10;

/** B-01. Who fires down, and everybody of whom a gap is known. */
export const gapUnderCone: Rule = {
  id: 'B-01',
  code: 'gap-under-cone',
  why: 'A cone that strikes the floor breaks; a gap that is too narrow loads it and makes noise.',
  check: ({ plan }) =>
    plan.driver.map((driver) => {
      const place = `driver ${driver.id}`;
      const { facing, gapUnderConeMm: gapMm, coneDiameterMm, xmechMm } = driver;
      if (gapMm === undefined) {
        if (facing === 'down') return { place, needs: 'the gap under its cone' };
        return facing === undefined && driver.kind === 'sub' ? { place, needs: 'which way it faces' } : null;
      }
      if (coneDiameterMm === undefined || coneDiameterMm === 0) return { place, needs: 'the diameter of its cone' };
      if (xmechMm === undefined) return { place, needs: 'how far its cone can move before it is damaged' };
      const { verdict } = clearance(coneDiameterMm, xmechMm, gapMm);
      if (verdict === 'ok') return null;
      const neededMm = Math.ceil(Math.max(xmechMm + ROOM_MM, coneDiameterMm / 4) - 1e-9);
      return {
        severity: verdict === 'stop' ? 'stop' : 'fix',
        place,
        message: `${said(gapMm)} mm of clearance under ${called(driver)}; needs ${neededMm} mm.`,
        values: { gapMm, neededMm, xmechMm, coneDiameterMm },
        clears: `Give it ${neededMm} mm.`,
        changes: [{ part: 'driver', id: driver.id, value: { ...driver, gapUnderConeMm: neededMm } }],
      };
    }),
};

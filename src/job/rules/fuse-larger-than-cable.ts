import { fuseFamilies } from '../../electrical/fuse-families.ts';
import { allowedA, cableWords, copperFor } from './cables.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** E-01. Cables behind a block that are not fused again are E-04's. */
export const fuseLargerThanCable: Rule = {
  id: 'E-01',
  code: 'fuse-larger-than-cable',
  why: 'A fuse protects the cable: one that is too large lets the cable burn first.',
  check: ({ plan, part }) =>
    plan.fuse
      .filter(({ fitted, run }) => fitted !== false && part('run', run) !== undefined)
      .map((fuse) => {
        const place = `fuse ${fuse.id}`;
        const { ratedA } = fuse;
        const run = part('run', fuse.run);
        if (run === undefined) return null;
        if (ratedA === undefined) return { place, needs: 'its rating' };
        const cableA = allowedA(run);
        if (cableA === undefined) return { place, needs: `size and material of ${run.id}` };
        if (ratedA <= cableA * (1 + 1e-9)) return null;
        const fitting = [...fuseFamilies[fuse.family ?? 'strip-30']].filter((rating) => rating <= cableA).at(-1);
        const thickerMm2 = copperFor(run, ratedA);
        const mends = [
          ...(fitting === undefined ? [] : [`${fitting} A`]),
          thickerMm2 === undefined ? 'a thicker cable' : `a cable of ${thickerMm2} mm2 copper`,
        ];
        const values = { ratedA, allowedA: cableA, ...(fitting === undefined ? {} : { fittingA: fitting }) };
        return {
          severity: 'stop',
          place,
          message: `Fuse ${said(ratedA)} A is larger than the cable ${cableWords(run)} it protects (${said(cableA)} A allowed). Fit ${mends.join(' or ')}.`,
          values,
          clears: `Fit ${mends.join(' or ')}.`,
          ...(fitting === undefined
            ? {}
            : { changes: [{ part: 'fuse' as const, id: fuse.id, value: { ...fuse, ratedA: fitting } }] }),
        };
      }),
};

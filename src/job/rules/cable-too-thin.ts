import { chooseFuse, loadFactorDefault } from '../../electrical/choose-fuse.ts';
import { fuseFamilyNames } from '../../electrical/fuse-families.ts';
import { allowedA, cableWords, copperFor } from './cables.ts';
import { runCarries } from './currents.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** E-05. If no standard fuse fits, the cable is wrong, not the fuse. */
export const cableTooThin: Rule = {
  id: 'E-05',
  code: 'cable-too-thin',
  why: 'No fuse both carries the music and protects this cable.',
  check: (view) =>
    view.plan.run.map((run) => {
      const place = `run ${run.id}`;
      const expectedA = runCarries(view, run)?.musicA;
      const cableA = allowedA(run);
      if (cableA === undefined) return { place, needs: 'its size and material' };
      if (expectedA === undefined) return { place, needs: 'what the devices behind it draw' };
      if (expectedA <= 0) return null;
      const chosen = (family: (typeof fuseFamilyNames)[number]) =>
        chooseFuse({ expectedA, allowedA: cableA, loadFactor: loadFactorDefault, family }).ok;
      if (cableA > 0 && fuseFamilyNames.some(chosen)) return null;
      const designA = expectedA / loadFactorDefault;
      const thickerMm2 = copperFor(run, designA * 1.25);
      const thicker = thickerMm2 === undefined ? 'a thicker cable' : `${thickerMm2} mm2 copper`;
      return {
        severity: 'stop',
        place,
        message: `${said(expectedA)} A expected needs a fuse of at least ${said(designA)} A; ${cableWords(run)} allows ${said(cableA)} A. Choose ${thicker}.`,
        values: { expectedA, designA, allowedA: cableA },
        clears: `Choose ${thicker}, or less power behind it.`,
      };
    }),
};

import { chooseFuse } from '../../electrical/choose-fuse.ts';
import { fuseFamilyNames } from '../../electrical/fuse-families.ts';
import { allowedA, cableWords, copperFor, inCopper } from './cables.ts';
import { fuseDesign } from './fuse-design.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** Room that a thicker cable leaves for the steps of the fuses. */
const STEP = 1.25;

/** E-05. If no standard fuse fits, the cable is wrong, not the fuse. */
export const cableTooThin: Rule = {
  id: 'E-05',
  code: 'cable-too-thin',
  why: 'No fuse both carries what the devices draw and protects this cable.',
  check: (view) =>
    view.plan.run.map((run) => {
      const place = `run ${run.id}`;
      const design = fuseDesign(view, run);
      const cableA = allowedA(run);
      if (cableA === undefined) return { place, needs: 'its size and material' };
      if (design === undefined) return { place, needs: 'what the devices behind it draw' };
      const { designA, expectedA, makerA } = design;
      if (designA <= 0) return null;
      const chosen = (family: (typeof fuseFamilyNames)[number]) =>
        chooseFuse({ expectedA: designA, allowedA: cableA, loadFactor: 1, family }).ok;
      if (cableA > 0 && fuseFamilyNames.some(chosen)) return null;
      const thickerMm2 = copperFor(run, designA * STEP);
      const thicker = thickerMm2 === undefined ? 'a thicker cable' : `${thickerMm2} mm2 copper`;
      const needed =
        makerA === undefined
          ? `${said(expectedA ?? designA)} A expected needs a fuse of at least ${said(designA)} A`
          : `The maker of ${run.to} fuses it at ${said(makerA)} A`;
      const values = { designA, allowedA: cableA };
      return {
        severity: 'stop',
        place,
        message: `${needed}; ${cableWords(run)} allows ${said(cableA)} A, and no fuse fits both. Choose ${thicker}.`,
        values: {
          ...values,
          ...(expectedA === undefined ? {} : { expectedA }),
          ...(makerA === undefined ? {} : { makerA }),
        },
        clears: `Choose ${thicker}, or less power behind it.`,
        ...(thickerMm2 === undefined
          ? {}
          : { changes: [{ part: 'run' as const, id: run.id, value: inCopper(run, thickerMm2) }] }),
      };
    }),
};

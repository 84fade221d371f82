import { runCarries } from './currents.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** E-06. */
export const fuseOpensInUse: Rule = {
  id: 'E-06',
  code: 'fuse-opens-in-use',
  why: 'A fuse smaller than what the music draws opens on the road.',
  check: (view) =>
    view.plan.fuse
      .filter(({ fitted, run }) => fitted !== false && view.part('run', run) !== undefined)
      .map((fuse) => {
        const place = `fuse ${fuse.id}`;
        const run = view.part('run', fuse.run);
        if (fuse.ratedA === undefined) return { place, needs: 'its rating' };
        const expectedA = run === undefined ? undefined : runCarries(view, run)?.musicA;
        if (expectedA === undefined) return { place, needs: `what the devices behind ${fuse.run} draw` };
        if (fuse.ratedA >= expectedA) return null;
        const message = `Fuse ${said(fuse.ratedA)} A will open in use (${said(expectedA)} A expected).`;
        return {
          severity: 'fix',
          place,
          message,
          values: { ratedA: fuse.ratedA, expectedA },
          clears: `Fit ${said(expectedA / 0.8)} A or the next above, if the cable allows it.`,
        };
      }),
};

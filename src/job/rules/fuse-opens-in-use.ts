import { chooseFuse } from '../../electrical/choose-fuse.ts';
import type { PartOf } from '../../plan/plan.ts';
import { allowedA } from './cables.ts';
import { type FuseDesign, fuseDesign } from './fuse-design.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** The next fuse of its family that holds and still protects the run; undefined where there is none. */
function holdingA(fuse: PartOf<'fuse'>, run: PartOf<'run'>, { designA }: FuseDesign): number | undefined {
  const cableA = allowedA(run);
  if (cableA === undefined || !(cableA > 0) || !(designA > 0)) return undefined;
  const family = fuse.family ?? 'strip-30';
  const chosen = chooseFuse({ expectedA: designA, allowedA: cableA, loadFactor: 1, family });
  return chosen.ok ? chosen.value.fuseA : undefined;
}

/** E-06. A fuse that carries the music and is smaller than the amplifier's own is only noted: it opens before those do. */
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
        const { ratedA } = fuse;
        if (ratedA === undefined) return { place, needs: 'its rating' };
        const design = run === undefined ? undefined : fuseDesign(view, run);
        if (run === undefined || design === undefined) {
          return { place, needs: `what the devices behind ${fuse.run} draw` };
        }
        const { expectedA, makerA } = design;
        const opens = expectedA !== undefined && ratedA < expectedA;
        const small = makerA !== undefined && ratedA < makerA;
        if (!opens && !small) return expectedA === undefined ? { place, needs: `what ${run.to} draws` } : null;
        const fittingA = holdingA(fuse, run, design);
        const mend = fittingA === undefined ? `${said(design.designA)} A or the next above` : `${fittingA} A`;
        const message = opens
          ? `Fuse ${said(ratedA)} A will open in use (${said(expectedA)} A expected).`
          : `Fuse ${said(ratedA)} A is smaller than the ${said(makerA ?? 0)} A that the maker of ${run.to} put into it: the loudest bass may open it.`;
        return {
          severity: opens ? 'fix' : 'note',
          place,
          message,
          values: {
            ratedA,
            ...(expectedA === undefined ? {} : { expectedA }),
            ...(makerA === undefined ? {} : { makerA }),
            ...(fittingA === undefined ? {} : { fittingA }),
          },
          clears: `Fit ${mend}, if the cable allows it.`,
          ...(fittingA === undefined
            ? {}
            : { changes: [{ part: 'fuse' as const, id: fuse.id, value: { ...fuse, ratedA: fittingA } }] }),
        };
      }),
};

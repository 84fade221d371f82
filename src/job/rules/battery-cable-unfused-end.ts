import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** E-03. A cable between two batteries is fed from both ends. */
export const batteryCableUnfusedEnd: Rule = {
  id: 'E-03',
  code: 'battery-cable-unfused-end',
  why: 'A short in a cable between batteries is fed from both of its ends.',
  check: ({ plan, part, fusesOf }, { fuseDistanceMaxM }) =>
    plan.run
      .filter(({ from, to }) => part('battery', from) !== undefined && part('battery', to) !== undefined)
      .map((run) => {
        const place = `run ${run.id}`;
        const fuses = fusesOf(run.id).filter(({ fitted }) => fitted !== false);
        const message = `The cable between batteries ${run.from} and ${run.to} needs a fuse at both ends.`;
        const clears = `Put one fuse at each end of ${run.id}, within ${said(fuseDistanceMaxM)} m of its battery.`;
        const wrong = { severity: 'stop' as const, place, message, values: { fuses: fuses.length }, clears };
        if (fuses.length < 2) return wrong;
        const { lengthM } = run;
        if (lengthM === undefined) return { place, needs: 'its length' };
        if (fuses.some(({ atM }) => atM === undefined)) return { place, needs: 'where its fuses sit' };
        const near = (end: number) => fuses.some(({ atM = 0 }) => Math.abs(atM - end) <= fuseDistanceMaxM);
        return near(0) && near(lengthM) ? null : wrong;
      }),
};

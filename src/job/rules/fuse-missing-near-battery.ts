import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** E-02. Own method: the first fuse along each run that leaves a battery. */
export const fuseMissingNearBattery: Rule = {
  id: 'E-02',
  code: 'fuse-missing-near-battery',
  why: 'Cable before the first fuse burns if it is pinched against body metal.',
  check: ({ plan, runsFrom, fusesOf }, { fuseDistanceMaxM }) =>
    plan.battery.flatMap(({ id }) =>
      runsFrom(id).map((run) => {
        const place = `run ${run.id}`;
        const fuses = fusesOf(run.id).filter(({ fitted }) => fitted !== false);
        const clears = `Put a fuse into ${run.id} within ${said(fuseDistanceMaxM)} m of cable from the battery.`;
        if (fuses.length === 0) {
          const message = `Run ${run.id} leaves the battery without any fuse. Fit a holder within ${said(fuseDistanceMaxM)} m.`;
          const values = { fuseDistanceMaxM, ...(run.lengthM === undefined ? {} : { unfusedM: run.lengthM }) };
          return { severity: 'stop', place, message, values, clears };
        }
        const places = fuses.map(({ atM }) => atM);
        if (places.some((atM) => atM !== undefined && atM <= fuseDistanceMaxM)) return null;
        if (places.includes(undefined)) return { place, needs: 'how far its fuse is from the battery' };
        const unfusedM = Math.min(...(places as number[]));
        const message = `${said(unfusedM)} m of cable from battery plus has no fuse. Move the holder within ${said(fuseDistanceMaxM)} m.`;
        return { severity: 'stop', place, message, values: { unfusedM, fuseDistanceMaxM }, clears };
      }),
    ),
};

import type { Rule } from './rule.ts';

/** E-21. */
export const runNotShortTested: Rule = {
  id: 'E-21',
  code: 'run-not-short-tested',
  why: 'The first fuse goes in when every run is known to be clear of body metal.',
  check: ({ plan, fusesOf }) =>
    plan.run
      .filter(({ id }) => fusesOf(id).some(({ fitted }) => fitted === true))
      .map(({ id, shortTested }) => {
        const place = `run ${id}`;
        if (shortTested === undefined) return { place, needs: 'whether it was checked for a short to body' };
        if (shortTested) return null;
        const message = `${id} has a fuse in it and has not been checked for a short to body.`;
        return {
          severity: 'stop',
          place,
          message,
          values: { run: id },
          clears: 'Take the fuse out, check the run, then fit it.',
        };
      }),
};

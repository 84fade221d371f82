import type { Rule } from './rule.ts';
import { called, listed } from './words.ts';

/** P-01. A hold point is behind a cover if it says so, or if the cover hides the part that it is about. */
export const coverClosesOverUnproven: Rule = {
  id: 'P-01',
  code: 'cover-closes-over-unproven',
  why: 'What is found wrong behind a closed cover costs another teardown.',
  check: ({ plan, coversClosed }) => {
    const open = plan.holdPoint.filter(({ proof }) => proof === undefined);
    const behind = (cover: (typeof plan.cover)[number]) =>
      open.filter(
        ({ id, of, behind }) =>
          behind?.includes(cover.id) || cover.hides?.some((hidden) => hidden === id || hidden === of),
      );
    const wrong = plan.cover
      .filter(({ id }) => coversClosed.has(id))
      .flatMap((cover) => {
        const unproven = behind(cover);
        if (unproven.length === 0) return [];
        const list = listed(unproven.map(called));
        const points = `${unproven.length} unproven ${unproven.length === 1 ? 'point' : 'points'}`;
        return {
          severity: 'stop' as const,
          place: `cover ${cover.id}`,
          message: `${called(cover)} hides ${points}: ${list}.`,
          values: { unproven: unproven.length, holdPoints: unproven.map(({ id }) => id).join(' ') },
          clears: 'Prove them, or leave the cover off.',
        };
      });
    const lost = open.filter(
      (point) => point.behind === undefined && !plan.cover.some((cover) => behind(cover).includes(point)),
    );
    return [...wrong, ...lost.map(({ id }) => ({ place: `hold point ${id}`, needs: 'which cover hides it' }))];
  },
};

import { holdPointsIn, isOpen } from '../hold-points/hold-points.ts';
import type { Rule } from './rule.ts';
import { called, counted, listed } from './words.ts';

/** P-01. By the same hold points as everywhere: those that the plan opens and no evidence has closed. */
export const coverClosesOverUnproven: Rule = {
  id: 'P-01',
  code: 'cover-closes-over-unproven',
  why: 'What is found wrong behind a closed cover costs another teardown.',
  check: (view) => {
    const open = holdPointsIn(view).filter(isOpen);
    const wrong = view.plan.cover
      .filter(({ id }) => view.coversClosed.has(id))
      .flatMap((cover) => {
        const unproven = open.filter(({ covers }) => covers.some((hiding) => hiding.cover === cover.id));
        if (unproven.length === 0) return [];
        const list = listed(unproven.map(({ name }) => name));
        const points = counted(unproven.length, 'unproven point');
        return {
          severity: 'stop' as const,
          place: `cover ${cover.id}`,
          message: `${called(cover)} hides ${points}: ${list}.`,
          values: { unproven: unproven.length, holdPoints: unproven.map(({ id }) => id).join(', ') },
          clears: 'Prove them, or leave the cover off.',
        };
      });
    // Of those that somebody planned by hand; what the plan opens by itself says in the list what is not known of it.
    const lost = open.filter(({ kind, coversKnown }) => kind === 'planned' && !coversKnown);
    return [...wrong, ...lost.map(({ of }) => ({ place: `hold point ${of.id}`, needs: 'which cover hides it' }))];
  },
};

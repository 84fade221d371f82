import { danglingReferences } from '../../plan/references.ts';
import { placeOf } from './plan-view.ts';
import type { Rule } from './rule.ts';

/** What points nowhere is said at the part that points. */
export const referenceDangling: Rule = {
  id: 'R-01',
  code: 'reference-dangling',
  why: 'A part that speaks of another that is not there was left behind by a change.',
  check: ({ plan }) =>
    danglingReferences(plan).map(({ id, field, to, among }) => ({
      severity: 'fix',
      place: placeOf(plan, id),
      message: `${id} says "${field}" is ${to}, and the plan has no ${among.length === 0 ? 'part' : among.join(' or ')} of that name.`,
      values: { field, to },
      clears: `Add ${to}, or say another one in "${field}" of ${id}.`,
    })),
};

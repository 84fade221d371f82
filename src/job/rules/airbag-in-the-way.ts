import type { Rule } from './rule.ts';
import { called } from './words.ts';

/** B-04. */
export const airbagInTheWay: Rule = {
  id: 'B-04',
  code: 'airbag-in-the-way',
  why: 'A part over or in the path of an airbag becomes a missile, or stops it.',
  check: ({ plan, part }) => {
    const used = new Set([...plan.driver, ...plan.enclosure].flatMap(({ place }) => place ?? []));
    return [...used].map((id) => {
      const found = part('place', id);
      if (found === undefined) return null;
      const place = `place ${id}`;
      if (found.restraint === undefined) return { place, needs: 'whether an airbag sits there' };
      if (!found.restraint) return null;
      const message = `${called(found)} has a restraint unit.`;
      return { severity: 'stop', place, message, values: { place: id }, clears: 'Choose another place.' };
    });
  },
};

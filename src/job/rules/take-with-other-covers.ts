import type { Outcome, Rule } from './rule.ts';
import { called } from './words.ts';

/** P-02. Of takes that count. A cover that a take does not mention was as the factory left it: fastened. */
export const takeWithOtherCovers: Rule = {
  id: 'P-02',
  code: 'take-with-other-covers',
  why: 'A take with a panel off is not of the car that the customer drives.',
  check: ({ plan, takes, coverIn }) =>
    plan.cover.flatMap((cover) =>
      takes.flatMap((take): Outcome[] => {
        const { duringTakes: planned } = cover;
        const state = coverIn(take.covers, cover.id)?.state ?? 'fastened';
        const place = `take ${take.id}, cover ${cover.id}`;
        if (planned === undefined) {
          return state === 'fastened' ? [] : [{ place, needs: `how ${cover.id} is to be while takes are recorded` }];
        }
        if (state === planned) return [];
        return [
          {
            severity: 'note',
            place,
            message: `Take ${take.name} was recorded with ${called(cover)} ${state}; planned is ${planned}.`,
            values: { take: take.id, cover: cover.id, state, planned },
            clears: `Record it again with ${cover.id} ${planned}, or plan it ${state}.`,
            changes: [{ part: 'cover', id: cover.id, value: { ...cover, duringTakes: state } }],
          },
        ];
      }),
    ),
};

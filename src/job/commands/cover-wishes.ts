// What a wish about covers comes to: which change, and whether one may be fastened over what nobody has proven.
import { failure, type Result, success } from '../../base/result.ts';
import type { EntryData } from '../entry-kinds.ts';
import { statedCover, unprovenBehind } from '../hold-points/behind-cover.ts';
import type { JobState } from '../projections/job-state.ts';
import { counted, listed } from '../rules/words.ts';
import type { CommandOf } from './commands.ts';

type CoversFact = EntryData<'covers-changed'>;

/**
 * Covers that change, as a fact.
 *
 * Who fastens a cover with open hold points behind it is refused, unless a name and a reason are given: they stand in the
 * journal with the list. A cover of which nothing was known before is as the car came, unless somebody fastens it now.
 */
export function coversChanged(state: JobState, wish: CommandOf<'changeCovers'>): Result<CoversFact> {
  const before = (cover: string) => statedCover(state, cover)?.state;
  const covers = wish.covers.filter(({ cover, state: wished }) => before(cover) !== wished);
  if (covers.length === 0) {
    return failure({
      code: 'nothing-changes',
      message: 'These covers are in that state already.',
      mend: 'Nothing needs to be done.',
    });
  }
  const fastened = covers.filter(
    ({ cover, state: wished }) => wished === 'fastened' && (before(cover) !== undefined || wish.fastening === true),
  );
  const over = fastened
    .map(({ cover }) => ({ cover, ...unprovenBehind(state, cover) }))
    .filter(({ open }) => open.length > 0);
  if (over.length === 0) return success({ covers });
  if (wish.passOver === undefined) {
    return failure(
      ...over.map(({ cover, open, shortest: { tests } }) => {
        const count = counted(open.length, 'unproven point');
        const list = listed(open.map(({ name }) => name));
        const first = tests.map(({ name }) => name);
        return {
          code: 'cover-hides-unproven',
          message: `Cover ${cover} hides ${count}: ${list}.`,
          where: `cover ${cover}`,
          mend: `Prove them first (${listed(first)}), or fasten it with a name and a reason.`,
        };
      }),
    );
  }
  const open = over.map(({ cover, open: points }) => ({ cover, holdPoints: points.map(({ id }) => id) }));
  return success({ covers, passedOver: { ...wish.passOver, open } });
}

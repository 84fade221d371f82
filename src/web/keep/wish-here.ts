// A wish carried out on what this page knows, while the shop does not answer: the same decision that the shop will make.
import '../plain-zod.ts';
import type { Result } from '../../base/result.ts';
import { success } from '../../base/result.ts';
import { decide } from '../../job/commands/decide.ts';
import { seenBy } from '../../job/contradictions.ts';
import { understood } from '../../job/lifts.ts';
import { evolve } from '../../job/projections/evolve.ts';
import type { JobView } from '../api-client.ts';
import type { KeptWish } from './kept-wish.ts';

/** Wishes that need what only the shop has: the whole journal, or a place for what is known of a person. */
const needsShop = new Set(['undo', 'erasePersonal', 'createJob', 'describeVehicle']);

/** What the owner says is wrong is of a person too. */
const isPersonal = (wish: KeptWish['wish']): boolean => wish.command === 'recordCheck' && wish.found.how === 'said';

export const canWait = (wish: KeptWish['wish']): boolean => !needsShop.has(wish.command) && !isPersonal(wish);

/** The view after `wishes`, and each with what its author had seen; or why one of them cannot be. */
export function wishHere(
  view: JobView,
  wishes: readonly Omit<KeptWish, 'seen'>[],
): Result<{ view: JobView; kept: KeptWish[] }> {
  let { job } = view;
  const kept: KeptWish[] = [];
  for (const wished of wishes) {
    const { id, who, when, wish } = wished;
    const journal = { job: job.id, state: job, entries: new Map(), withdrawn: new Set<string>(), sequences: new Map() };
    const decision = decide(journal, { id, who, when, wish }, { when, device: 'page', fresh: [], sha256: () => '' });
    if (!decision.ok) return decision;
    kept.push({ ...wished, seen: seenBy(job, wish) });
    for (const entry of decision.value.entries) {
      const known = understood(entry);
      // What waits here cannot be taken back before the shop has it.
      if (known !== null) job = { ...evolve(job, known), undoable: null, changedWhen: when };
    }
  }
  return success({ view: { ...view, job }, kept });
}

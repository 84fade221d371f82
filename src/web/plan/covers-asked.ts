// How the covers of a job stand before anybody has said so: asked once, answered in one step, nothing guessed.
import { useCallback, useState } from 'react';
import type { Command } from '../../job/commands/commands.ts';
import type { CoverState } from '../../job/entry-kinds.ts';
import { coversText, type KnownCoverState, nextCoverState } from './cover-words.ts';
import type { VehiclePlan } from './vehicle-plan.ts';

/** What the person has pressed so far, by cover. */
export type CoversDraft = Readonly<Record<string, KnownCoverState>>;

export interface CoversAnswer {
  /** All that the answer says: what was pressed, and "the others are fastened". */
  covers: CoverState[];
  /** The button that gives it. */
  text: string;
  small: string;
}

/**
 * The answer that stands ready; null where every cover was said before.
 *
 * @param all letters of the covers that the vehicle has
 * @param said what the job says of them
 */
export function coversAnswer(
  all: readonly string[],
  said: readonly CoverState[],
  draft: CoversDraft,
): CoversAnswer | null {
  const known = new Set(said.map(({ cover }) => cover));
  const asked = all.filter((id) => !known.has(id));
  if (asked.length === 0) return null;
  const covers = asked.map((id) => ({ cover: id, state: draft[id] ?? ('fastened' as const) }));
  const pressed = covers.filter(({ cover }) => draft[cover] !== undefined);
  const small = pressed.length === 0 ? 'or press those that are off' : coversText(pressed);
  if (pressed.length === asked.length) return { covers, text: 'That is how it stands', small };
  const text = pressed.length > 0 || known.size > 0 ? 'The others are fastened' : 'All are fastened';
  return { covers, text, small };
}

export interface CoversAsked {
  /** What one press gives as the answer; null where nothing is to be asked. */
  answer: CoversAnswer | null;
  stateOf: (cover: string) => KnownCoverState | undefined;
  press: (cover: string) => void;
  /** The cover that somebody is fastening: what is unproven behind it comes first. */
  fastening: string | null;
  leaveFastening: () => void;
  /** Writes the answer down. @returns whether the journal has it */
  give: () => Promise<boolean>;
}

/** The covers of a job on a screen: a press goes into the answer while it is asked, and into the journal from then on. */
export function useCoversAsked(
  plan: VehiclePlan | null,
  said: readonly CoverState[],
  wish: (...commands: Command[]) => Promise<boolean>,
): CoversAsked {
  const [draft, setDraft] = useState<CoversDraft>({});
  const [fastening, setFastening] = useState<string | null>(null);
  const answer = coversAnswer(plan?.layout.covers.map(({ id }) => id) ?? [], said, draft);
  const saidOf = (id: string) => said.find(({ cover }) => cover === id)?.state;
  return {
    answer,
    stateOf: (id) => saidOf(id) ?? draft[id],
    press(id) {
      const known = saidOf(id);
      if (known === undefined) return setDraft({ ...draft, [id]: nextCoverState(draft[id]) });
      const next = nextCoverState(known);
      if (next === 'fastened') setFastening(id);
      else void wish({ command: 'changeCovers', covers: [{ cover: id, state: next }] });
    },
    fastening,
    leaveFastening: useCallback(() => setFastening(null), []),
    async give() {
      if (answer === null) return true;
      const done = await wish({ command: 'changeCovers', covers: answer.covers });
      if (done) setDraft({});
      return done;
    },
  };
}

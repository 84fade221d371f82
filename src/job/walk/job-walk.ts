// The channel walk of a job: what was heard, what explains it, what comes next, and what a clean walk proves.
import type { PartOf } from '../../plan/plan.ts';
import { type FaultWords, faultWords } from '../../wiring/fault-words.ts';
import type { NextTest } from '../../wiring/next-tests.ts';
import { type WalkedChannel, type WalkOfJob, walkOfPlan } from '../../wiring/plan-of-job.ts';
import { channelWalk, type WalkAnswer } from '../../wiring/walk.ts';
import type { Observation, WalkRequest } from '../../wiring/walk-request.ts';
import { playOrder, soundFor, type WalkSound } from '../../wiring/walk-tests.ts';
import { holdPointsOf } from '../hold-points/hold-points.ts';
import { holdPointId } from '../hold-points/ids.ts';
import type { JobState } from '../projections/job-state.ts';

export type WalkStep =
  | { do: 'plan'; needs: string }
  | { do: 'play'; channel: WalkedChannel; again: boolean }
  | { do: 'test'; test: NextTest }
  | { do: 'mend'; faults: (FaultWords & { fault: string })[] }
  | { do: 'proven' };

export interface JobWalk {
  walk: WalkOfJob;
  answer: WalkAnswer;
  /** What was last heard of each channel that was played alone, by its id. */
  heardOf: ReadonlyMap<string, Observation>;
  next: WalkStep;
  /** Hold points that a walk which ended as planned proves, once somebody puts a name to it. */
  proves: string[];
}

/** Parts that what was heard of a channel rests on. */
function restsOn({ plan }: JobState, channels: readonly string[]): Set<string> {
  const { parts } = plan;
  const own = parts.channel.filter(({ id }) => channels.includes(id));
  const on = own.map(({ amplifier }) => amplifier);
  return new Set([
    ...channels.map((id) => `channel ${id}`),
    ...parts.load.filter(({ amplifier }) => on.includes(amplifier)).map(({ id }) => `load ${id}`),
    ...parts.lead.filter(({ from }) => from !== undefined && on.includes(from)).map(({ id }) => `lead ${id}`),
  ]);
}

/** One channel alone, heard where it is planned and nowhere else, and not turned over. */
function asPlanned({ outputs, heard }: Observation, { channels }: WalkOfJob): boolean {
  const channel = channels.find(({ id }) => outputs !== 'all' && outputs.length === 1 && outputs[0] === id);
  return heard.length === 1 && heard[0].place === channel?.place && heard[0].polarity !== '-';
}

/** What still counts of what was heard: the last of each test, none that the plan has changed under. */
function counting(state: JobState, walk: WalkOfJob): Pick<WalkRequest, 'observations' | 'answers'> {
  let observations = new Map<string, Observation>();
  let answers = new Map<string, string>();
  const known = new Set(walk.channels.map(({ id }) => id));
  const places = new Set(walk.channels.map(({ place }) => place));
  for (const { when, sound } of state.heard) {
    if (sound.how === 'mended') {
      observations = new Map([...observations].filter(([, observation]) => asPlanned(observation, walk)));
      answers = new Map();
    } else if (sound.how === 'tested') {
      answers.set(sound.test, sound.outcome);
    } else {
      const { side, channels, heard } = sound;
      const rests = restsOn(state, channels);
      const changed = state.plan.changes.some(({ part, id, when: then }) => then > when && rests.has(`${part} ${id}`));
      const fits = channels.every((id) => known.has(id)) && heard.every(({ place }) => places.has(place));
      const key = `${side} ${[...channels].sort().join(' ')}`;
      // Whoever plays a channel again doubts what came of it: tests that were proposed from it are made again too.
      if (observations.delete(key)) answers = new Map();
      if (!changed && fits) observations.set(key, { side, outputs: channels, heard });
    }
  }
  const tests = walk.plan.outputs.flatMap(({ id, amp, place }) => [
    `view-setting:${id}`,
    `probe-amp:${amp}`,
    `probe-lead:${place}`,
  ]);
  return {
    observations: [...observations.values()],
    answers: [...answers].filter(([test]) => tests.includes(test)).map(([test, outcome]) => ({ test, outcome })),
  };
}

const edgesOf = ({ plan }: JobState, { id }: WalkedChannel) => {
  const channel = plan.parts.channel.find((known) => known.id === id);
  return { highPassHz: channel?.highPass?.fHz, lowPassHz: channel?.lowPass?.fHz };
};

/** A sound for a channel of a job that harms nothing, wherever its lead may end. */
export const soundOf = (state: JobState, channel: WalkedChannel): WalkSound => soundFor(edgesOf(state, channel));

/** Hold points that are not closed yet and that the walk shows to be right. */
function provenBy(state: JobState, walk: WalkOfJob, heardOf: ReadonlyMap<string, Observation>): string[] {
  const open = new Set(holdPointsOf(state).flatMap(({ id, state: now }) => (now === 'closed' ? [] : [id])));
  const { plan } = state;
  const leads = new Set(plan.parts.lead.map(({ id }: PartOf<'lead'>) => id));
  const shown = walk.channels.flatMap(({ id, speakerLead, drivers }) => [
    holdPointId('channel-reaches', id),
    ...(leads.has(speakerLead) ? [holdPointId('lead-connected', speakerLead)] : []),
    // Of several drivers on one channel nobody can say which of them was heard to push.
    ...(drivers.length === 1 && heardOf.get(id)?.heard[0]?.polarity === '+'
      ? [holdPointId('driver-polarity', drivers[0].id)]
      : []),
  ]);
  return shown.filter((id) => open.has(id));
}

function stepAfter(
  state: JobState,
  walk: WalkOfJob,
  answer: WalkAnswer,
  { observations, heardOf }: { observations: Observation[]; heardOf: ReadonlyMap<string, Observation> },
): WalkStep {
  if (walk.channels.length === 0) {
    const [first] = walk.left;
    return { do: 'plan', needs: first === undefined ? 'channels' : `of ${first.id} ${first.needs}` };
  }
  const order = playOrder(walk.channels, (channel) => edgesOf(state, channel));
  const fresh = order.find(({ id }) => !heardOf.has(id));
  if (fresh !== undefined) return { do: 'play', channel: fresh, again: false };
  if (answer.status === 'as planned') return { do: 'proven' };
  if (answer.status === 'explained') {
    return {
      do: 'mend',
      faults: answer.explanations[0].faults.map((fault) => ({ fault, ...faultWords(walk, fault) })),
    };
  }
  if (answer.status === 'tie' && answer.nextTests.length > 0) return { do: 'test', test: answer.nextTests[0] };
  const doubtful = answer.doubtful === null ? undefined : observations[answer.doubtful];
  const odd = doubtful ?? observations.find((observation) => !asPlanned(observation, walk));
  const again = order.find(({ id }) => odd?.outputs !== 'all' && odd?.outputs[0] === id) ?? order[0];
  return { do: 'play', channel: again, again: true };
}

/**
 * Where the walk of a job stands.
 *
 * Each channel is played alone; what explains all that was heard is searched for after each of them. A channel whose plan was
 * changed after it was heard is played again. Nothing is proven by this alone: a person gives `proves` as evidence.
 */
export function jobWalk(state: JobState): JobWalk {
  const walk = walkOfPlan(state.plan.parts);
  const { observations, answers } = counting(state, walk);
  const answer = channelWalk({ plan: walk.plan, observations, answers });
  const heardOf = new Map(
    observations.flatMap((observation) =>
      observation.outputs !== 'all' && observation.outputs.length === 1
        ? [[observation.outputs[0], observation] as const]
        : [],
    ),
  );
  const next = stepAfter(state, walk, answer, { observations, heardOf });
  return { walk, answer, heardOf, next, proves: next.do === 'proven' ? provenBy(state, walk, heardOf) : [] };
}

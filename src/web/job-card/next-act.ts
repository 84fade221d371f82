// What a job is at and what comes next, from what it waits for and from what is unproven.
import type { JobView } from '../api-client.ts';
import { asDriven, coversText } from '../plan/cover-words.ts';
import type { KnownProof } from '../proof/use-proof.ts';
import type { Route } from '../route.ts';
import { countWords } from '../shop/job-words.ts';

/** What is known of the hold points; null until it is. */
export type ProofSoFar = Pick<KnownProof, 'points' | 'open' | 'covers' | 'stages' | 'shortest'> | null;

/** The sentence of the card; while the covers are asked for it says so. */
export function cardSentence({ job }: JobView, asking: boolean, proof: ProofSoFar = null): string {
  const kept = job.takes.filter((take) => take.kept).length;
  const heard = kept === 0 ? 'The car has not been heard yet' : `${countWords(kept, 'take is', 'takes are')} kept`;
  if (asking) return `${heard}. Which covers are off?`;
  const open = proof?.open.length ?? 0;
  if (open > 0 && kept > 0) {
    const hiding = (proof?.covers ?? []).filter((cover) => cover.open.length > 0).length;
    const covers = hiding === 0 ? 'No cover hides' : countWords(hiding, 'cover hides', 'covers hide');
    return `${countWords(open, 'hold point is', 'hold points are')} open. ${covers} ${open === 1 ? 'it' : 'them'}.`;
  }
  if (job.covers.length === 0) return `${heard}.`;
  if (asDriven(job.covers)) return `${heard}. All covers are fastened.`;
  const having = (wanted: 'off' | 'resting') => job.covers.filter(({ state }) => state === wanted).length;
  const [off, resting] = [having('off'), having('resting')];
  const offWords = countWords(off, 'cover is off', 'covers are off');
  if (resting === 0) return `${heard}. ${offWords}.`;
  if (off === 0) return `${heard}. ${countWords(resting, 'cover rests', 'covers rest')}, not fastened.`;
  return `${heard}. ${offWords}, ${countWords(resting, 'rests', 'rest').toLowerCase()}.`;
}

export interface NextAct {
  text: string;
  small: string;
  to: Route;
  /** Beside the act: what it leads to, or why nothing else comes first. */
  why?: string | undefined;
  /** How many hold points it proves. */
  left?: number;
  /** No work is left but what `why` says. */
  rests?: true;
}

/** The proving that comes next, in the order of the stages; undefined where nothing of it is open before the last covers. */
function proving(job: string, proof: NonNullable<ProofSoFar>): Omit<NextAct, 'why'> | undefined {
  const { points, open } = proof;
  const act = (text: string, which: (point: (typeof points)[number]) => boolean, to: Route, more = '') => {
    const left = open.filter(which).length;
    const all = points.filter(which).length;
    return left === 0
      ? []
      : [{ text, small: `${left} of ${all} ${all === 1 ? 'point' : 'points'} open${more}`, left, to }];
  };
  // A lead is proven by the sound that comes out of its driver, so that the walk proves it, not the meter.
  const isLead = ({ kind }: (typeof points)[number]) => kind === 'lead-connected';
  const walked = (point: (typeof points)[number]) => point.stage === 'first-sound' || isLead(point);
  const leads = open.filter(isLead).length;
  const rest = leads === 0 ? '' : `; the walk proves ${countWords(leads, 'lead', 'leads').toLowerCase()}`;
  return [
    ...act(
      'Prove the loom',
      (point) => point.stage === 'loom' && !walked(point),
      { page: 'hold-points', job, cover: null },
      rest,
    ),
    ...act('Walk the channels', walked, { page: 'first-sound', job }),
    ...act('Set the gains', ({ stage }) => stage === 'gains', { page: 'gains', job }),
    ...act('Prove the refit', ({ stage }) => stage === 'refit', { page: 'hold-points', job, cover: null }),
  ][0];
}

/** How few tests would clear all that is open. */
function testsWords({ open, shortest }: NonNullable<ProofSoFar>): string {
  const tests = countWords(shortest.tests.length, 'test clears', 'tests clear');
  return `${tests} ${open.length === 1 ? 'the open point' : `all ${open.length} open points`}.`;
}

/** The main action of the card: the first thing that is really next. */
export function nextAct({ job, waits }: JobView, proof: ProofSoFar): NextAct {
  const codes = waits.map(({ code }) => code);
  const take: Route = { page: 'take', job: job.id, place: null };
  const points: Route = { page: 'hold-points', job: job.id, cover: null };
  const { channel, driver, run } = job.plan.parts;
  const planned = channel.length + driver.length + run.length > 0;
  const begun = proof !== null && proof.open.length < proof.points.length;
  // Once something is proven the car is no longer as it came in.
  if (codes.includes('take-missing') && !begun) {
    return { text: 'Record the first take', small: 'the car as it came in, half a minute', to: take };
  }
  const driven = codes.includes('take-as-driven-missing') && asDriven(job.covers);
  const recordDriven: NextAct = { text: 'Record it as it is driven', small: 'all covers fastened', to: take };
  if (!planned && job.purpose === 'car' && !driven) {
    return {
      text: 'Start the plan',
      small: 'drivers, amplifiers, leads and fuses',
      to: { page: 'plan', job: job.id, part: null },
    };
  }
  if (planned && proof === null) {
    return { text: 'Open the hold points', small: 'what is proven, and what is not', to: points };
  }
  if (proof !== null) {
    const next = proving(job.id, proof);
    if (next !== undefined) return { ...next, why: testsWords(proof) };
  }
  const open = waits.find(({ code }) => code === 'covers-open')?.message;
  if (planned && open !== undefined) {
    return {
      text: 'Fasten the covers',
      small: codes.includes('take-as-driven-missing') ? 'then record it as it is driven' : 'as it is handed over',
      to: { page: 'job', job: job.id },
      why: open,
      rests: true,
    };
  }
  if (driven) return recordDriven;
  if (proof !== null && proof.open.length > 0) {
    return { text: 'Prove what is left', small: `${proof.open.length} open before hand over`, to: points };
  }
  return {
    text: 'Record a take',
    small: job.covers.length === 0 ? 'with whatever stands in the bay' : coversText(job.covers),
    to: take,
    why: open,
    rests: true,
  };
}

/** What a job waits for, as the bench says it; null where nothing waits. */
export function waitsWords(view: JobView, proof: ProofSoFar): string | null {
  const { text, left, rests, why } = nextAct(view, proof);
  if (rests) return why ?? null;
  const open = left === undefined ? '' : `, ${left} open`;
  return `You: ${text.slice(0, 1).toLowerCase()}${text.slice(1)}${open}.`;
}

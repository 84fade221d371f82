import { expect, test } from 'vitest';
import type { JobView } from '../api-client.ts';
import { cardSentence, nextAct, type ProofSoFar, waitsWords } from './next-act.ts';

const since = '2026-11-12T09:00:00.000Z';

function view(covers: string, kept: number, waits: string[] = [], planned = false): JobView {
  const states = { f: 'fastened', o: 'off', r: 'resting' } as const;
  return {
    job: {
      id: 'job-1',
      purpose: 'car',
      plan: { parts: { channel: planned ? [{ id: '1' }] : [], driver: [], run: [] } },
      covers: [...covers].map((c, n) => ({ cover: 'ABCDEFGH'[n], state: states[c as 'f' | 'o' | 'r'], since })),
      takes: Array.from({ length: kept }, () => ({ kept: true })),
    },
    waits: waits.map((code) => ({ code, message: `${code}.` })),
  } as unknown as JobView;
}

const kinds = {
  fuse: { stage: 'loom', kind: 'fuse-fitted' },
  lead: { stage: 'loom', kind: 'lead-connected' },
  channel: { stage: 'first-sound', kind: 'channel-reaches' },
  gain: { stage: 'gains', kind: 'gain-set' },
  box: { stage: 'refit', kind: 'box-fixed' },
  settings: { stage: 'hand-over', kind: 'settings-kept' },
} as const;

/** Points that are all there, and those of them that are still open. */
function proof(open: (keyof typeof kinds)[], hiding = 0): ProofSoFar {
  const points = (Object.keys(kinds) as (keyof typeof kinds)[]).map((id) => ({ id, ...kinds[id] }));
  return {
    points,
    open: points.filter(({ id }) => open.includes(id)),
    covers: Array.from({ length: hiding }, () => ({ open: open })),
    stages: [],
    shortest: { tests: [{}, {}], exact: true },
  } as unknown as ProofSoFar;
}

test('the card says what was heard and which covers are open', () => {
  expect(cardSentence(view('', 0), true)).toBe('The car has not been heard yet. Which covers are off?');
  expect(cardSentence(view('', 0), false)).toBe('The car has not been heard yet.');
  expect(cardSentence(view('ffff', 1), false)).toBe('One take is kept. All covers are fastened.');
  expect(cardSentence(view('foof', 3), false)).toBe('Three takes are kept. Two covers are off.');
  expect(cardSentence(view('fffr', 3), false)).toBe('Three takes are kept. One cover rests, not fastened.');
  expect(cardSentence(view('orrf', 3), false)).toBe('Three takes are kept. One cover is off, two rest.');
});

test('once the car was heard and something is unproven, the card says how much, and what hides it', () => {
  const of = (...given: Parameters<typeof proof>) => cardSentence(view('ffff', 1, [], true), false, proof(...given));
  expect(of(['fuse', 'gain'], 2)).toBe('Two hold points are open. Two covers hide them.');
  expect(of(['gain'], 1)).toBe('One hold point is open. One cover hides it.');
  expect(of(['gain'], 0)).toBe('One hold point is open. No cover hides it.');
  expect(of([])).toBe('One take is kept. All covers are fastened.');
  expect(cardSentence(view('ffff', 0), false, proof(['fuse'], 1))).toBe(
    'The car has not been heard yet. All covers are fastened.',
  );
});

test('without a plan the first take comes first, then the plan, and a closed car is recorded as it is driven', () => {
  expect(nextAct(view('', 0, ['take-missing']), null)).toMatchObject({
    text: 'Record the first take',
    to: { page: 'take' },
  });
  expect(nextAct(view('fo', 2, ['covers-open', 'take-as-driven-missing']), null)).toMatchObject({
    text: 'Start the plan',
    to: { page: 'plan', job: 'job-1' },
  });
  expect(nextAct(view('ff', 2, ['take-as-driven-missing']), null).text).toBe('Record it as it is driven');
});

test('with a plan the first stage that is unproven comes next, and its screen opens', () => {
  const next = (open: Parameters<typeof proof>[0], ...rest: [string?, string[]?]) =>
    nextAct(view(rest[0] ?? 'ff', 1, rest[1] ?? [], true), proof(open));
  expect(next(['fuse', 'lead', 'channel', 'gain'])).toEqual({
    text: 'Prove the loom',
    small: '1 of 1 point open; the walk proves one lead',
    left: 1,
    to: { page: 'hold-points', job: 'job-1', cover: null },
    why: 'Two tests clear all 4 open points.',
  });
  // What is left of the loom is proven by the walk.
  expect(next(['lead', 'channel', 'gain'])).toMatchObject({
    text: 'Walk the channels',
    small: '2 of 2 points open',
    to: { page: 'first-sound', job: 'job-1' },
  });
  expect(next(['channel', 'gain']).small).toBe('1 of 2 points open');
  expect(next(['gain', 'box'])).toMatchObject({ text: 'Set the gains', to: { page: 'gains' } });
  expect(next(['box', 'settings'], 'of')).toMatchObject({ text: 'Prove the refit', to: { page: 'hold-points' } });
  expect(next(['settings'], 'ff', ['take-as-driven-missing']).text).toBe('Record it as it is driven');
  expect(next(['settings'])).toMatchObject({ text: 'Prove what is left', small: '1 open before hand over' });
  // The covers are on the card itself.
  expect(next(['settings'], 'of', ['covers-open', 'take-as-driven-missing'])).toMatchObject({
    text: 'Fasten the covers',
    small: 'then record it as it is driven',
    to: { page: 'job' },
    why: 'covers-open.',
  });
  expect(next([])).toMatchObject({ text: 'Record a take', small: 'all covers fastened', rests: true });
});

test('the first take comes before the proving, unless something is proven already', () => {
  const all = Object.keys(kinds) as (keyof typeof kinds)[];
  const fresh = view('ff', 0, ['take-missing'], true);
  expect(nextAct(fresh, proof(all)).text).toBe('Record the first take');
  expect(nextAct(fresh, proof(all.slice(1))).text).toBe('Walk the channels');
});

test('the bench says what a job waits for in the words of its card', () => {
  expect(waitsWords(view('', 0, ['take-missing']), null)).toBe('You: record the first take.');
  expect(waitsWords(view('ff', 1, [], true), proof(['gain', 'box']))).toBe('You: set the gains, 1 open.');
  expect(waitsWords(view('of', 1, ['covers-open'], true), proof([]))).toBe('covers-open.');
  expect(waitsWords(view('ff', 1, [], true), proof([]))).toBeNull();
});

import { expect, test } from 'vitest';
import type { JobView } from '../api-client.ts';
import { cardSentence, nextAct } from './next-act.ts';

const since = '2026-11-12T09:00:00.000Z';

function view(covers: string, kept: number, waits: string[] = []): JobView {
  const states = { f: 'fastened', o: 'off', r: 'resting' } as const;
  return {
    job: {
      covers: [...covers].map((c, n) => ({ cover: 'ABCDEFGH'[n], state: states[c as 'f' | 'o' | 'r'], since })),
      takes: Array.from({ length: kept }, () => ({ kept: true })),
    },
    waits: waits.map((code) => ({ code, message: '' })),
  } as unknown as JobView;
}

test('the card says what was heard and which covers are open', () => {
  expect(cardSentence(view('', 0), true)).toBe('The car has not been heard yet. Which covers are off?');
  expect(cardSentence(view('', 0), false)).toBe('The car has not been heard yet.');
  expect(cardSentence(view('ffff', 1), false)).toBe('One take is kept. All covers are fastened.');
  expect(cardSentence(view('foof', 3), false)).toBe('Three takes are kept. Two covers are off.');
  expect(cardSentence(view('fffr', 3), false)).toBe('Three takes are kept. One cover rests, not fastened.');
  expect(cardSentence(view('orrf', 3), false)).toBe('Three takes are kept. One cover is off, two rest.');
});

test('the next act follows from what the job waits for', () => {
  expect(nextAct(view('', 0, ['take-missing'])).text).toBe('Record the first take');
  expect(nextAct(view('ff', 2, ['take-as-driven-missing'])).text).toBe('Record it as it is driven');
  expect(nextAct(view('fo', 2, ['covers-open', 'take-as-driven-missing']))).toEqual({
    text: 'Record a take',
    small: 'B off, the others fastened',
  });
});

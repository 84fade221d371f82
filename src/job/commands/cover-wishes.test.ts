import { describe, expect, test } from 'vitest';
import { Bench, entry, openJob, takeOf } from '../../../test/job/given.ts';
import { journalOf } from '../journal.ts';
import { understood } from '../lifts.ts';
import { planCheckOf } from '../projections/plan-check.ts';
import type { Command } from './commands.ts';

const state = (cover: string, to: 'off' | 'resting' | 'fastened', more: object = {}): Command => ({
  command: 'changeCovers',
  covers: [{ cover, state: to }],
  ...more,
});
const passOver = { passOver: { name: 'Ben', why: 'Needed tonight.' } };
const point = (id: string, behind: string[]): Command => ({
  command: 'setPlanPart',
  part: 'holdPoint',
  id,
  value: { behind },
});
const prove = (id: string): Command => ({
  command: 'giveEvidence',
  holdPoints: [id],
  evidence: { how: 'seen', name: 'Ann' },
});
const begun = () =>
  new Bench().does(
    openJob,
    { command: 'setPlanPart', part: 'cover', id: 'door', value: { letter: 'B' } },
    point('H1', ['door']),
    point('H2', ['door']),
  );
const refusal = (bench: Bench, wish: Command) => {
  const decision = bench.decided(wish);
  return decision.ok ? null : decision.issues[0];
};

describe('fastening a cover', () => {
  test('that was off, with open hold points behind it, is refused with the list and what clears it', () => {
    for (const before of ['off', 'resting'] as const) {
      const issue = refusal(begun().does(state('B', before)), state('B', 'fastened'));
      expect(issue).toMatchObject({ code: 'cover-hides-unproven', where: 'cover B' });
      expect(issue?.message).toBe('Cover B hides 2 unproven points: H1 and H2.');
      expect(issue?.mend).toContain('Look behind');
    }
  });

  test('is allowed for what is off or resting, whatever is behind it', () => {
    expect(refusal(begun(), state('B', 'off'))).toBeNull();
    expect(refusal(begun().does(state('B', 'off')), state('B', 'resting'))).toBeNull();
  });

  test('is allowed once all is proven, by its id as by its letter, and nothing is passed over', () => {
    const bench = begun().does(state('door', 'off'), prove('point H1 proven'), prove('point H2 proven'));
    expect(refusal(bench, state('B', 'fastened'))).toBeNull();
    bench.does(state('door', 'fastened', passOver));
    expect(bench.entries.at(-1)?.data).toEqual({ covers: [{ cover: 'door', state: 'fastened' }] });
  });

  test('cannot be had by calling it otherwise', () => {
    expect(refusal(begun().does(state('door', 'off')), state('B', 'fastened'))?.code).toBe('cover-hides-unproven');
  });

  test('takes a name and a reason, which stand in the journal with what was open then', () => {
    const bench = begun().does(state('B', 'off'), prove('point H1 proven'), state('B', 'fastened', passOver));
    expect(bench.entries.at(-1)).toMatchObject({
      kind: 'covers-changed',
      version: 2,
      data: {
        passedOver: { name: 'Ben', why: 'Needed tonight.', open: [{ cover: 'B', holdPoints: ['point H2 proven'] }] },
      },
    });
    expect(bench.state.covers).toMatchObject([
      { cover: 'B', state: 'fastened', passedOver: { name: 'Ben', who: 'Ann', holdPoints: ['point H2 proven'] } },
    ]);
    expect(bench.state.undoable?.says).toBe('set cover B fastened over 1 unproven point');
  });

  test('is undone with its reason', () => {
    const bench = begun().does(state('B', 'off'), state('B', 'fastened', passOver));
    bench.does({ command: 'undo', entry: bench.entries.at(-1)?.id ?? '' });
    expect(bench.state.covers).toEqual([expect.not.objectContaining({ passedOver: expect.anything() })]);
    expect(bench.state.covers[0].state).toBe('off');
  });

  test('without having been off is how the car came; somebody who fastens it says so and is held to it', () => {
    expect(refusal(begun(), state('B', 'fastened'))).toBeNull();
    expect(refusal(begun(), state('B', 'fastened', { fastening: true }))?.code).toBe('cover-hides-unproven');
  });

  test('of a job whose plan is empty needs no word, and a take keeps its covers as they were said', () => {
    const bench = new Bench().does(openJob, state('B', 'off'), state('B', 'fastened'));
    bench.does(takeOf('left', { covers: [{ cover: 'B', state: 'fastened' }] }));
    expect(bench.state.takes[0].covers).toEqual([{ cover: 'B', state: 'fastened' }]);
    const open = begun().does(state('B', 'off'), takeOf('a', { covers: [{ cover: 'B', state: 'fastened' }] }));
    expect(open.state.covers).toMatchObject([{ state: 'off' }]);
  });
});

describe('a cover that was fastened over what is unproven', () => {
  const found = (bench: Bench) => planCheckOf(bench.state).findings.find(({ id }) => id === 'P-01');

  test('stays in the list as accepted by who answers for it, and the stage may go on', () => {
    const bench = begun().does(state('B', 'off'), state('B', 'fastened', passOver));
    expect(found(bench)).toMatchObject({
      place: 'cover door',
      message: 'door hides 2 unproven points: H1 and H2.',
      accepted: { who: 'Ben', why: 'Needed tonight.' },
    });
    expect(found(bench)?.accepted?.stale).toBeUndefined();
    expect(planCheckOf(bench.state).stops).toBe(0);
  });

  test('is no longer accepted for a point that was not among them, and still is when one is proven', () => {
    const bench = begun().does(state('B', 'off'), state('B', 'fastened', passOver));
    bench.does(prove('point H2 proven'));
    expect(found(bench)?.accepted?.stale).toBeUndefined();
    bench.does(point('H3', ['door']));
    expect(found(bench)?.accepted?.stale).toContain('point H3 proven');
    expect(planCheckOf(bench.state).stops).toBe(1);
  });
});

test('a job of which the first version wrote the covers is read as before', () => {
  const old = entry('old', 'covers-changed', { covers: [{ cover: 'B', state: 'fastened' }] }, { sequence: 99 });
  expect(understood(old)).toMatchObject({ version: 1, data: { covers: [{ cover: 'B', state: 'fastened' }] } });
  const { state: after } = journalOf('j1', [...begun().entries, old]);
  expect(after).toMatchObject({ notUnderstood: 0, covers: [{ cover: 'B', state: 'fastened' }] });
});

import { expect, test } from 'vitest';
import { planOf } from '../../../test/plan/rule-cases.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { holdPointsOfPlan } from './hold-points.ts';
import { shortestTests, shortestTestsSchema } from './shortest-tests.ts';

const points = holdPointsOfPlan(planOf(templatePlan('seven-channel')));
const of = (...ids: string[]) => points.filter(({ id }) => ids.includes(id));
const listed = (...ids: string[]) => shortestTests(of(...ids)).tests.map(({ id }) => id);

test('one walk with the microphone near each driver proves leads, channels and polarity of all', () => {
  const walk = points.filter(({ kind }) => ['lead-connected', 'channel-reaches', 'driver-polarity'].includes(kind));
  const { tests, exact } = shortestTests(walk);
  expect(exact).toBe(true);
  expect(tests).toHaveLength(1);
  expect(tests[0]).toMatchObject({ kind: 'near-walk', opens: [] });
  expect(new Set(tests[0].clears)).toEqual(new Set(walk.map(({ id }) => id)));
});

test('ears are enough where nobody asks for polarity, and one take where it is one driver', () => {
  expect(listed('lead L11 connected', 'channel C1 reaches', 'channel C2 reaches')).toEqual(['channel-walk']);
  expect(listed('driver D1 polarity')).toEqual(['near driver D1 polarity']);
});

test('a meter reads one load at a time', () => {
  expect(listed('load N1 coils', 'load N2 coils')).toEqual(['meter load N1 coils', 'meter load N2 coils']);
});

test('a look behind one cover sees all that it hides', () => {
  const plan = planOf({
    cover: [{ id: 'seat', name: 'Seat base', hides: ['F1', 'G1'] }, { id: 'floor' }],
    run: [
      { id: 'R1', under: ['floor'] },
      { id: 'R2', under: ['floor', 'seat'] },
    ],
    fuse: [{ id: 'F1', run: 'R1' }],
    ground: [{ id: 'G1' }],
  });
  const { tests } = shortestTests(holdPointsOfPlan(plan));
  // What lies behind both wants both off, and then everything is seen.
  expect(tests).toMatchObject([{ id: 'look seat floor', opens: ['seat', 'floor'] }]);
  const behindSeat = holdPointsOfPlan(plan).filter(({ of: { id } }) => id === 'F1' || id === 'G1');
  expect(shortestTests(behindSeat).tests).toMatchObject([
    { id: 'look seat', name: 'Look behind Seat base', opens: ['seat'] },
  ]);
});

test('every open point of every kind is cleared by some test, and each clears only what was asked', () => {
  const all = holdPointsOfPlan(
    planOf({
      ...templatePlan('two-way-front-sub'),
      source: [{ id: 'H', kind: 'speaker', cleanV: 8 }],
      enclosure: [{ id: 'BOX', kind: 'sealed' }],
      holdPoint: [{ id: 'H1', name: 'grommet' }],
    }),
  );
  const found = shortestTests(all);
  expect(shortestTestsSchema.parse(found)).toEqual(found);
  const ids = new Set(all.map(({ id }) => id));
  const cleared = new Set(found.tests.flatMap(({ clears }) => clears));
  expect(cleared).toEqual(ids);
  expect(new Set(all.map(({ kind }) => kind)).size).toBe(14);
  expect(shortestTests([])).toEqual({ tests: [], exact: true });
});

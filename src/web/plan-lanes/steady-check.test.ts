import { expect, test } from 'vitest';
import type { PlanCheck } from '../../job/projections/plan-check.ts';
import { sameFigures, steadyCheck } from './steady-check.ts';

const accepted = {
  entry: 'e1',
  who: 'A. B.',
  when: '2026-01-01T10:00:00.000Z',
  why: 'so be it',
  stale: 'It was accepted when x was 1.',
};
const checkOf = (excursionV: number): PlanCheck => ({
  findings: [
    {
      id: 'D-03',
      code: 'stroke-binds',
      severity: 'fix',
      place: 'driver D3',
      message: '',
      clears: '',
      why: '',
      values: { excursionV },
      accepted,
    },
  ],
  cannotTell: [],
  stops: 0,
});
const override = {
  entry: 'e1',
  when: accepted.when,
  who: 'A. B.',
  finding: 'D-03',
  place: 'driver D3',
  severity: 'fix' as const,
  message: '',
  values: { excursionV: 9.352682686293544 },
  why: 'so be it',
};

test('an acceptance counts although the last digit of another machine differs', () => {
  const [found] = steadyCheck(checkOf(9.352682686293546), [override]).findings;
  expect(found.accepted).toMatchObject({ who: 'A. B.' });
  expect(found.accepted).not.toHaveProperty('stale');
});

test('an acceptance of other figures stays doubtful', () => {
  expect(steadyCheck(checkOf(9.36), [override]).findings[0].accepted?.stale).toBeDefined();
});

test('figures are the same only with the same names and the same words', () => {
  expect(sameFigures({ a: 1, b: 'x' }, { b: 'x', a: 1 + 1e-12 })).toBe(true);
  expect(sameFigures({ a: 1 }, { a: 1, b: 2 })).toBe(false);
  expect(sameFigures({ a: 'x' }, { a: 'y' })).toBe(false);
});

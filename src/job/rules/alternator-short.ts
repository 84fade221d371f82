import { alternatorBudget, idleFractionDefault } from '../../electrical/alternator-budget.ts';
import { amplifierDraws } from './currents.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** What a usual car draws for itself: an assumption. */
const vehicleAssumedA = 35;

/** E-14. */
export const alternatorShort: Rule = {
  id: 'E-14',
  code: 'alternator-short',
  why: 'What the alternator does not give comes out of the battery until it is flat.',
  check: (view) => {
    const vehicle = view.plan.vehicle.at(0);
    const place = 'vehicle';
    if (view.plan.amplifier.length === 0) return [];
    if (vehicle?.alternatorA === undefined || vehicle.alternatorA <= 0)
      return [{ place, needs: 'what its alternator gives' }];
    const drawn = view.plan.amplifier.map((amplifier) => amplifierDraws(view, amplifier)?.musicA);
    const unknown = view.plan.amplifier.find((_, n) => drawn[n] === undefined);
    if (unknown !== undefined) return [{ place, needs: `what ${unknown.id} draws` }];
    const processors = view.plan.processor.reduce((sum, { currentA = 0 }) => sum + currentA, 0);
    const audioA = drawn.reduce<number>((sum, musicA) => sum + (musicA ?? 0), processors);
    const budget = alternatorBudget({
      alternatorRatedA: vehicle.alternatorA,
      idleFraction: vehicle.alternatorIdleShare ?? idleFractionDefault,
      vehicleA: vehicle.vehicleLoadA ?? vehicleAssumedA,
      audioA,
    });
    if (budget.verdict === 'ok') return [];
    const always = budget.verdict === 'always-short';
    const shortA = -(always ? budget.cruiseMarginA : budget.idleMarginA);
    const message = always
      ? `Even on the road the alternator is short by ${said(shortA)} A; the battery never recovers.`
      : `At idle the alternator is short by ${said(shortA)} A; the battery drains.`;
    const clears = 'Plan less power, or an alternator that gives more.';
    return [{ severity: always ? 'stop' : 'fix', place, message, values: { shortA, audioA }, clears }];
  },
};

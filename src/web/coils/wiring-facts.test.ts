import { expect, test } from 'vitest';
import { planView } from '../../job/rules/plan-view.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { wiringFacts, wrongReadings } from './wiring-facts.ts';
import { usualWirings } from './wirings.ts';

const view = planView(templatePlan('seven-channel'));
const lane = view.lanes[6];
const wirings = usualWirings(lane.drivers);
const facts = wirings.map((wiring) => wiringFacts(wiring, lane.drivers, lane, 0.2));

test('coil after coil holds: 8 ohm, 280 W, half of it in each coil, 7.2 ohm on the meter with 0.2 ohm of lead', () => {
  expect(facts[0]).toMatchObject({ name: 'coil after coil', ohm: 8, watt: 280, even: true, amplifier: 'holds' });
  expect(facts[0]?.shares.map(({ share }) => share)).toEqual([0.5, 0.5]);
  expect(facts[0]?.reads.midOhm).toBeCloseTo(7.2, 9);
});

test('side by side is below the lowest load, and one coil alone takes all', () => {
  expect(facts[1]).toMatchObject({ ohm: 2, amplifier: 'below' });
  expect(facts[1]).not.toHaveProperty('watt');
  expect(facts[2]).toMatchObject({ ohm: 4, watt: 500, even: false, hottestW: 500, coilStandsW: 200 });
  expect(facts[2]?.shares).toEqual([
    { coil: 'D7/1', share: 1 },
    { coil: 'D7/2', share: 0 },
  ]);
});

test('what one mistake would read: a short, side by side, one coil, a break', () => {
  const wrong = wrongReadings(wirings[0], wirings.slice(1), lane.drivers, 0.2);
  expect(wrong.map(({ reads }) => (reads === 'open' ? reads : Number(reads.toFixed(2))))).toEqual([
    0.2,
    1.95,
    3.7,
    'open',
  ]);
  expect(wrong.every(({ told }) => told)).toBe(true);
});

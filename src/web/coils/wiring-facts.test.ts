import { expect, test } from 'vitest';
import { planView } from '../../job/rules/plan-view.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { readingMeans, wiringFacts, wrongReadings } from './wiring-facts.ts';
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

test('a reading is explained by one mistake, and by two only where no single one does', () => {
  // Two drivers of two coils of 3.5 ohm, each pair in series, side by side: 3.5 ohm.
  const drivers = ['D1', 'D2'].map((id) => ({ id, coils: 2, reOhm: 3.5 }));
  const network = { p: [{ s: ['D1/1', 'D1/2'] }, { s: ['D2/1', 'D2/2'] }] };
  const means = (ohm: number) => readingMeans({ name: 'series, side by side', network }, drivers, 0, ohm);
  // Both pairs side by side instead: all four at once, which is one word for it.
  expect(means(0.875)).toBe('That looks like all coils side by side.');
  expect(means(3.5)).toMatch(/^That is series, side by side, as it should be\. So would coil D1\/1 alone/);
  // One pair side by side, 1.75, of it one coil open leaves 3.5 beside 7: 2.33 ohm.
  expect(means(2.33)).toMatch(
    /^No single mistake reads like this; two would: coils of D1 joined the other way and coil D1\/1 open/,
  );
  expect(means(4.9)).toMatch(/^Neither one mistake nor two/);
  expect(readingMeans({ name: 'x', network }, [{ id: 'D1' }], 0, 3.5)).toBeNull();
});

import { expect, test } from 'vitest';
import { networkOhm } from '../../drivers/loads/coil-network.ts';
import { coilsIn } from '../../plan/networks.ts';
import { usualWirings, wiringKey, wiringWords } from './wirings.ts';

const ohmsOf = (drivers: { id: string; coils: number }[], coilOhm: number) =>
  usualWirings(drivers)
    .filter(({ open }) => open.length === 0)
    .map(({ network }) => networkOhm(network, new Map(coilsIn(network).map((coil) => [coil, coilOhm]))))
    .sort((a, b) => a - b);

test('one driver of two 4 ohm coils is 8 or 2 ohm, or 4 with a coil left open', () => {
  const wirings = usualWirings([{ id: 'S', coils: 2 }]);
  expect(ohmsOf([{ id: 'S', coils: 2 }], 4)).toEqual([2, 8]);
  expect(wirings.at(-1)).toEqual({ name: 'one coil, one left open', network: 'S/1', open: ['S/2'] });
});

test('two drivers of two 4 ohm coils are 1, 4, 4 or 16 ohm, four single ones of 8 ohm 2, 8 or 32', () => {
  expect(
    ohmsOf(
      [
        { id: 'S', coils: 2 },
        { id: 'T', coils: 2 },
      ],
      4,
    ),
  ).toEqual([1, 4, 4, 16]);
  const four = ['A', 'B', 'C', 'D'].map((id) => ({ id, coils: 1 }));
  expect(ohmsOf(four, 8)).toEqual([2, 8, 32]);
});

test('each coil stands in an even wiring once', () => {
  for (const { network } of usualWirings([
    { id: 'S', coils: 2 },
    { id: 'T', coils: 2 },
  ])) {
    expect(coilsIn(network).sort()).toEqual(['S/1', 'S/2', 'T/1', 'T/2']);
  }
});

test('a wiring is known again in any order, and one that is not usual is said so', () => {
  expect(wiringKey({ p: ['S/2', 'S/1'] })).toBe(wiringKey({ p: ['S/1', { s: ['S/2'] }] }));
  const drivers = [{ id: 'S', coils: 2 }];
  expect(wiringWords({ p: ['S/2', 'S/1'] }, drivers)).toBe('coils side by side');
  const two = [...drivers, { id: 'T', coils: 2 }];
  expect(wiringWords({ s: ['S/1', { p: ['S/2', 'T/1', 'T/2'] }] }, two)).toBe(
    '4 coils of 2 drivers, in a way of its own',
  );
});

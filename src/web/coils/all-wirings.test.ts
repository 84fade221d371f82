import { expect, test } from 'vitest';
import { networkOhm } from '../../drivers/loads/coil-network.ts';
import { wiringSet } from '../../drivers/loads/coil-wiring-set.ts';
import { coilsIn } from '../../plan/networks.ts';
import { allWirings } from './all-wirings.ts';

const coils = ['D/1', 'D/2', 'E/1', 'E/2'];

test.each([
  [1, 1],
  [2, 2],
  [3, 4],
  [4, 10],
])('%i coils have %i ways, each with every coil once', (count, ways) => {
  const used = coils.slice(0, count);
  const found = allWirings(used);
  expect(found).toHaveLength(ways);
  for (const network of found) expect(coilsIn(network).sort()).toEqual(used);
});

test('they come to the loads that a set of coils can be, no more and no less', () => {
  const ohms = allWirings(coils).map((network) => networkOhm(network, new Map(coils.map((coil) => [coil, 4]))));
  const distinct = [...new Set(ohms.map((ohm) => ohm.toFixed(9)))].map(Number).sort((a, b) => a - b);
  const set = wiringSet([4, 4, 4, 4]);
  expect(set.ok && set.value.ohms.map((ohm) => Number(ohm.toFixed(9)))).toEqual(distinct);
});

test('more coils than a person would look through are not listed', () => {
  expect(allWirings([...coils, 'F/1'])).toEqual([]);
});

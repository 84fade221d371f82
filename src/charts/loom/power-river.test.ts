import { expect, test } from 'vitest';
import { powerRiver, runWeightPx } from './power-river.ts';

const node = (id: string) => ({ id, name: id, small: '' });
const edge = (id: string, from: string, to: string) => ({
  id,
  from,
  to,
  label: '',
  fuses: [{ id: `F${id}`, bad: false }],
  bad: false,
});
const nodes = ['BAT', 'BLOCK', 'A', 'B', 'C'].map(node);
const edges = [edge('R1', 'BAT', 'BLOCK'), ...['A', 'B', 'C'].map((to) => edge(`R-${to}`, 'BLOCK', to))];

test('devices stand right of the block, the block right of the battery, at the middle of what it feeds', () => {
  const { nodes: placed, heightPx } = powerRiver(nodes, edges, 600);
  const at = new Map(placed.map((each) => [each.id, each]));
  const x = (id: string) => at.get(id)?.x ?? Number.NaN;
  const y = (id: string) => at.get(id)?.y ?? Number.NaN;
  expect(x('BAT')).toBeLessThan(x('BLOCK'));
  expect(x('BLOCK')).toBeLessThan(x('A'));
  expect([x('B'), x('C')]).toEqual([x('A'), x('A')]);
  expect(y('BLOCK')).toBe(y('B'));
  expect(y('BAT')).toBe(y('BLOCK'));
  expect(y('C') - y('A')).toBeCloseTo((2 / 3) * heightPx, 9);
});

test('nothing lies outside the width, on a phone neither', () => {
  const { nodes: placed, edges: drawn } = powerRiver(nodes, edges, 340);
  for (const { x, widthPx } of placed) {
    expect(x - widthPx / 2).toBeGreaterThanOrEqual(0);
    expect(x + widthPx / 2).toBeLessThanOrEqual(340);
  }
  for (const { capsules } of drawn) expect(capsules[0].x).toBeGreaterThan(0);
});

test('runs that go round in a circle or that end at nothing are left out', () => {
  const round = [...edges, edge('R9', 'A', 'BAT'), edge('R8', 'A', 'gone')];
  expect(powerRiver(nodes, round, 600).edges.map(({ id }) => id)).toEqual(['R1', 'R-A', 'R-B', 'R-C']);
  expect(powerRiver([], [], 600).nodes).toEqual([]);
});

test('a cable of four times the metal is drawn twice as wide', () => {
  expect(runWeightPx(16) / runWeightPx(4)).toBeCloseTo(2, 9);
});

import { expect, test } from 'vitest';
import { bandHeight, bandWidth, bandX, foundPaths, plannedPath } from './band-row.ts';

const open = { highPass: null, lowPass: null };
const butterworth = { family: 'butterworth', order: 2, fHz: 200 } as const;
const numbers = (path: string) =>
  path.split(/[MLZ]/).flatMap((pair) => (pair === '' ? [] : [pair.split(' ').map(Number)]));

test('frequency lies on a logarithmic axis from 20 Hz to 20 kHz', () => {
  expect([20, 200, 2000, 20_000].map(bandX)).toEqual(
    [0, bandWidth / 3, (2 * bandWidth) / 3, bandWidth].map((x) => expect.closeTo(x, 6)),
  );
});

test('a channel without filters is filled evenly, one with a high-pass falls to the floor below it', () => {
  const flat = numbers(plannedPath(open)).slice(1, -1);
  expect(new Set(flat.map(([, y]) => y)).size).toBe(1);
  const falling = numbers(plannedPath({ ...open, highPass: butterworth })).slice(1, -1);
  // 40 dB down a decade below its corner is past the floor.
  expect(falling[0][1]).toBe(bandHeight);
  expect(falling.at(-1)?.[1]).toBe(flat[0][1]);
});

test('what was found is laid over the plan, whatever its level, and drawn apart where neighbours drown it', () => {
  const curve = (levelDb: number) => ({
    place: 'P1',
    points: [100, 200, 400, 800].map((fHz) => ({ fHz, levelDb, own: fHz > 150 })),
  });
  const { own, drowned } = foundPaths(open, curve(-50));
  expect(numbers(own)).toHaveLength(3);
  expect(numbers(drowned)).toHaveLength(1);
  expect(own).toBe(foundPaths(open, curve(0)).own);
  const [[, planned]] = numbers(plannedPath(open)).slice(1);
  expect(numbers(own).every(([, y]) => y === planned)).toBe(true);
});

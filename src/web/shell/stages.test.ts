import { expect, test } from 'vitest';
import type { JobView } from '../api-client.ts';
import { stageNames, stageOfView, stagesDone } from './stages.ts';

const when = '2026-11-12T09:00:00.000Z';

function view(takes: boolean[], covers: string[] = [], bodyType: string | undefined = 'van'): JobView {
  return {
    job: {
      vehicle: { bodyType },
      takes: takes.map((kept) => ({ kept, when })),
      covers: covers.map((state) => ({ state })),
    },
  } as unknown as JobView;
}

/** So many of three points are open in each stage. */
const points = (...open: number[]) =>
  (['Loom', 'First sound', 'Gains', 'Refit', 'Hand over'] as const).map((name, n) => ({ name, open: open[n], all: 3 }));

test('a car has arrived once it is described and heard, at the time of the first take that was kept', () => {
  expect(stageOfView(view([]), [])).toBe(0);
  expect(stageOfView(view([false]), [])).toBe(0);
  expect(stageOfView(view([false, true]), [])).toBe(1);
  expect(stagesDone(view([false]), [])).toEqual({});
  expect(stagesDone(view([false, true]), [])).toEqual({ Arrive: when });
});

test('a job stands at its plan until something of it is proven, and then where the next points are open', () => {
  const at = (open: number[], covers = ['fastened'], takes = [true]) =>
    stageNames[stageOfView(view(takes, covers), points(...open))];
  expect(at([3, 3, 3, 3, 3])).toBe('Plan');
  expect(at([2, 3, 3, 3, 3])).toBe('Loom');
  expect(at([0, 3, 3, 3, 3])).toBe('First sound');
  expect(at([0, 0, 1, 0, 3])).toBe('Gains');
  expect(at([0, 0, 0, 1, 3])).toBe('Refit');
  expect(at([0, 0, 0, 0, 3], ['off', 'fastened'])).toBe('Refit');
  expect(at([0, 0, 0, 0, 0])).toBe('Shape');
  expect(at([0, 3, 3, 3, 3], ['fastened'], [])).toBe('Arrive');
});

test('a stage is done once all of its points are proven: refit needs its covers closed, handing over needs more', () => {
  expect(stagesDone(view([]), points(1, 1, 1, 1, 1))).toEqual({});
  const proven = { Loom: null, 'First sound': null, Gains: null };
  expect(stagesDone(view([], ['fastened']), points(0, 0, 0, 0, 0))).toEqual({ ...proven, Refit: null });
  expect(stagesDone(view([], ['resting', 'fastened']), points(0, 0, 0, 0, 0))).toEqual(proven);
});

import { expect, test } from 'vitest';
import type { JobView } from '../api-client.ts';
import { stageOfView, stagesDone } from './stages.ts';

function view(takes: boolean[], covers: string[] = [], bodyType: string | undefined = 'van'): JobView {
  return {
    job: {
      vehicle: { bodyType },
      takes: takes.map((kept) => ({ kept, when: '2026-11-12T09:00:00.000Z' })),
      covers: covers.map((state) => ({ state })),
    },
  } as unknown as JobView;
}

test('a car has arrived once it is described and heard, on the day of the first take that was kept', () => {
  expect(stageOfView(view([]))).toBe(0);
  expect(stageOfView(view([false]))).toBe(0);
  expect(stageOfView(view([false, true]))).toBe(1);
  expect(stagesDone(view([false]), [])).toEqual({});
  expect(stagesDone(view([false, true]), [])).toEqual({ Arrive: 'Thu 12 Nov' });
});

test('a stage is done once all of its points are proven: refit needs its covers closed, handing over needs more', () => {
  const points = (open: number) =>
    (['Loom', 'First sound', 'Gains', 'Refit', 'Hand over'] as const).map((name) => ({ name, open }));
  expect(stagesDone(view([]), points(1))).toEqual({});
  expect(Object.keys(stagesDone(view([], ['fastened']), points(0)))).toEqual(['Loom', 'First sound', 'Gains', 'Refit']);
  expect(Object.keys(stagesDone(view([], ['resting', 'fastened']), points(0)))).not.toContain('Refit');
});

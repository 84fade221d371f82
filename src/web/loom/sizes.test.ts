import { expect, test } from 'vitest';
import { templatePlan } from '../../plan/templates/templates.ts';
import { partWith, typedChanges, withTyped } from './sizes.ts';

const plan = templatePlan('seven-channel');

test('what was typed for several parts becomes one change each, and what was not touched stays', () => {
  let typed = withTyped(new Map(), 'run', 'R1', { areaMm2: 35, gauge: undefined });
  typed = withTyped(typed, 'run', 'R1', { material: 'copper' });
  typed = withTyped(typed, 'fuse', 'F1', { ratedA: 125 });
  expect(typedChanges(plan, typed)).toEqual([
    {
      part: 'run',
      id: 'R1',
      value: { id: 'R1', name: 'battery to block', from: 'BAT', to: 'BLOCK', areaMm2: 35, material: 'copper' },
    },
    { part: 'fuse', id: 'F1', value: { id: 'F1', run: 'R1', family: 'strip-51', ratedA: 125 } },
  ]);
});

test('a field that was cleared is not known any more, and typing what was there changes nothing', () => {
  const typed = withTyped(new Map(), 'fuse', 'F1', { family: undefined });
  expect(partWith(plan, typed, 'fuse', 'F1')).toEqual({ id: 'F1', run: 'R1' });
  expect(typedChanges(plan, withTyped(new Map(), 'fuse', 'F1', { family: 'strip-51' }))).toEqual([]);
});

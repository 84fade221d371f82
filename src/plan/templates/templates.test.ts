import { describe, expect, test } from 'vitest';
import { partsSchema } from '../plan.ts';
import { danglingReferences } from '../references.ts';
import { templateNames, templatePlan } from './templates.ts';

describe.each(templateNames)('template %s', (name) => {
  const plan = templatePlan(name);
  test('is a plan that could be entered, and nothing in it points nowhere', () => {
    expect(partsSchema.parse(JSON.parse(JSON.stringify(plan)))).toEqual(plan);
    expect(danglingReferences(plan)).toEqual([]);
  });
  test('gives every driver a channel, a lead, a place and a cover that says what it hides', () => {
    const drivers = plan.driver.length;
    expect([plan.channel, plan.lead, plan.place, plan.load].map(({ length }) => length)).toEqual(
      Array(4).fill(drivers),
    );
    const hidden = plan.cover.flatMap(({ hides = [] }) => hides);
    expect(new Set(hidden)).toEqual(new Set([...plan.driver, ...plan.lead].map(({ id }) => id)));
    for (const { name } of plan.cover) expect(name).toBeDefined();
  });
});

test('the seven-channel plan has seven, the sub with both coils in series', () => {
  const plan = templatePlan('seven-channel');
  expect(plan.channel).toHaveLength(7);
  expect(plan.load[6].network).toEqual({ s: ['D7/1', 'D7/2'] });
});

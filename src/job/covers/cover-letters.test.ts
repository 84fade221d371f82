import { describe, expect, test } from 'vitest';
import { bodyKinds, vehicleBodies } from '../../charts/vehicle/bodies.ts';
import { planLayout } from '../../charts/vehicle/layout.ts';
import { templateNames, templatePlan } from '../../plan/templates/templates.ts';
import { coverLetters } from './cover-letters.ts';

const drawn = (kind: (typeof bodyKinds)[number], hand: 'left' | 'right') =>
  new Map(planLayout(vehicleBodies[kind], hand).covers.map(({ id, name }) => [id, name]));

describe('letters of covers', () => {
  test('are those of the same panels on the drawing, for every template and body', () => {
    for (const template of templateNames) {
      for (const body of bodyKinds) {
        for (const steering of ['left', 'right'] as const) {
          const names = drawn(body, steering);
          for (const [cover, letter] of coverLetters(templatePlan(template).cover, { body, steering })) {
            const name = (names.get(letter) ?? '').toLowerCase();
            const [what, side] = cover.split('-').slice(cover.startsWith('rear-') ? 1 : 0);
            if (cover.startsWith('rear-')) expect(name).toMatch(/rear door|quarter/);
            else if (what === 'door') expect(name).toMatch(/^(left|right) (door card|front door)$/);
            else if (what === 'kick') expect([name, side]).toEqual(['kick panel', steering]);
            else expect(name).toMatch(/floor/);
            if (what === 'door') expect(name.startsWith(side)).toBe(true);
          }
        }
      }
    }
  });

  test('both front doors and the floor have one wherever there is a drawing that shows them', () => {
    const { cover } = templatePlan('two-way-front-sub');
    const letters = coverLetters(cover, { body: 'hatchback', steering: 'right' });
    expect([...letters.keys()].sort()).toEqual(['boot-floor', 'door-left', 'door-right']);
    expect(new Set(letters.values()).size).toBe(3);
  });

  test('that the plan says win, and none is given twice', () => {
    const covers = [{ id: 'door-left', letter: 'Z' }, { id: 'Q', name: 'Right front door' }, { id: 'door-right' }];
    const letters = coverLetters(covers, { body: 'sedan' });
    expect(letters.get('door-left')).toBe('Z');
    expect(letters.has('Q')).toBe(true);
    expect(letters.has('door-right')).toBe(false);
  });

  test('are not made up without a drawing', () => {
    expect(coverLetters(templatePlan('two-way-front').cover, { body: 'other' }).size).toBe(0);
    expect(coverLetters(templatePlan('two-way-front').cover).size).toBe(0);
  });
});

import { expect, test } from 'vitest';
import { bodyKinds, vehicleBodies } from '../../charts/vehicle/bodies.ts';
import { planLayout } from '../../charts/vehicle/layout.ts';
import { countsText, coverSentence } from './body-facts.ts';

test('a cover says its name and the places that it hides', () => {
  const layout = planLayout(vehicleBodies.hatchback, 'right');
  expect(countsText(layout)).toBe('8 covers, 7 places');
  expect(coverSentence(layout, 'A')).toEqual({
    name: 'Dash top',
    behind: 'Behind it: P1 Dash top, left and P2 Dash top, right.',
  });
  expect(coverSentence(layout, 'Z')).toBeNull();
});

test.each(bodyKinds)(
  'every cover of the %s has a name and says what is behind it, with the wheel on either side',
  (kind) => {
    for (const hand of ['left', 'right'] as const) {
      const layout = planLayout(vehicleBodies[kind], hand);
      for (const { id, name } of layout.covers) expect(coverSentence(layout, id)?.name).toBe(name);
      expect(new Set(layout.covers.map(({ id }) => id)).size).toBe(layout.covers.length);
    }
  },
);

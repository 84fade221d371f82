import { expect, test } from 'vitest';
import { coversAnswer } from './covers-asked.ts';

const all = ['A', 'B', 'C'];

test('nothing pressed: the only answer at hand is that all are fastened', () => {
  const answer = coversAnswer(all, [], {});
  expect(answer).toMatchObject({ text: 'All are fastened', small: 'or press those that are off' });
  expect(answer?.covers).toEqual(all.map((cover) => ({ cover, state: 'fastened' })));
});

test('pressed covers stand as pressed, and the button says what it says of the others', () => {
  const answer = coversAnswer(all, [], { B: 'off', C: 'resting' });
  expect(answer).toMatchObject({ text: 'The others are fastened', small: 'B off, C resting' });
  expect(answer?.covers).toEqual([
    { cover: 'A', state: 'fastened' },
    { cover: 'B', state: 'off' },
    { cover: 'C', state: 'resting' },
  ]);
  expect(coversAnswer(all, [], { A: 'off', B: 'off', C: 'off' })?.text).toBe('That is how it stands');
});

test('what the job says already is not asked again, and never answered over', () => {
  expect(coversAnswer(all, [{ cover: 'A', state: 'off' }], {})).toMatchObject({
    text: 'The others are fastened',
    covers: [
      { cover: 'B', state: 'fastened' },
      { cover: 'C', state: 'fastened' },
    ],
  });
  const whole = all.map((cover) => ({ cover, state: 'fastened' as const }));
  expect(coversAnswer(all, whole, {})).toBeNull();
});

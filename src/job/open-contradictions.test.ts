import { describe, expect, test } from 'vitest';
import { at, entry } from '../../test/job/given.ts';
import type { Entry } from './entries.ts';
import { journalOf } from './journal.ts';
import { openContradictions, settlingNote } from './open-contradictions.ts';

const run = (id: string, who: string, minutes: number, lengthM: number, seen?: string): Entry => {
  const change = { part: 'run', id: 'R1', value: { id: 'R1', lengthM } };
  const told = seen === undefined ? { change } : { change, seen: { entry: seen, when: at(1) } };
  return entry(id, 'plan-changed', { changes: [told] }, { who, when: at(minutes), device: who });
};
const opened = entry('o', 'job-created', { name: 'x', purpose: 'car' });
const both = [opened, run('a', 'Ann', 1, 4), run('b', 'Ben', 2, 5)];
const open = (...more: Entry[]) => openContradictions(journalOf('j1', [...both, ...more]).state);

describe('a part that two changed unseen', () => {
  test('is told with both names until somebody settles it', () => {
    expect(open()).toMatchObject([{ entry: 'b', lost: { value: { lengthM: 4 } } }]);
    expect(open()[0].says).toContain('Ann and Ben both changed run R1');
    const note = entry('n', 'note-added', { text: 'right', about: settlingNote('b') }, { when: at(3) });
    expect(open(note)).toEqual([]);
  });
  test('is settled by whoever changes it again, having seen it', () => {
    expect(open(run('c', 'Cy', 3, 6, 'b'))).toEqual([]);
  });
});

test('a note of a contradiction is told as it stands', () => {
  const note = entry('n', 'note-added', { text: 'Cover B: off, resting.', about: 'contradiction' }, { when: at(3) });
  expect(openContradictions(journalOf('j1', [opened, note]).state)).toEqual([
    { entry: 'n', says: 'Cover B: off, resting.' },
  ]);
});

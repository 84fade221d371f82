import { expect, test } from 'vitest';
import { Bench, entry, openJob, takeOf } from '../../test/job/given.ts';
import type { Command } from './commands/commands.ts';
import { withdrawnIds } from './undo.ts';

const note = (text: string) => ({ command: 'addNote', text }) as const;
const undo = (id: string) => ({ command: 'undo', entry: id }) as const;

test('what was taken back does not count, and stays in the journal', () => {
  const bench = new Bench().does(openJob, note('one'), note('two'), undo('e2'));
  expect(bench.state.notes.map(({ text }) => text)).toEqual(['two']);
  expect(bench.state).toMatchObject({ entries: 4, undone: 1 });
});

test('an undo undone is done again, however deep', () => {
  const bench = new Bench().does(openJob, note('one'), undo('e2'));
  expect(bench.state.notes).toHaveLength(0);
  bench.does(undo('e3'));
  expect(bench.state.notes).toHaveLength(1);
  bench.does(undo('e4'));
  expect(bench.state.notes).toHaveLength(0);
});

test('undo goes back step by step and names each', () => {
  const bench = new Bench().does(openJob, note('one'), takeOf('left door'));
  expect(bench.state.undoable).toMatchObject({ entry: 'e3', says: 'recorded take left door' });
  bench.does(undo('e3'));
  expect(bench.state.undoable).toMatchObject({ entry: 'e2', says: 'noted "one"' });
  bench.does(undo('e2'));
  expect(bench.state.undoable).toBeNull();
});

test('covers go back to what they were before', () => {
  const off: Command = { command: 'changeCovers', covers: [{ cover: 'A', state: 'off' }] };
  const on: Command = { command: 'changeCovers', covers: [{ cover: 'A', state: 'fastened' }] };
  const bench = new Bench().does(openJob, on, off, undo('e3'));
  expect(bench.state.covers).toMatchObject([{ cover: 'A', state: 'fastened' }]);
});

test('a job stays open whatever an entry claims, and so does what was erased', () => {
  const opening = entry('e1', 'job-created', { name: 'x', purpose: 'car' });
  const erased = entry('e2', 'personal-erased', { records: ['r'] });
  const claims = ['e1', 'e2', 'nothing'].map((target, n) => entry(`u${n}`, 'undone', { entry: target }));
  expect(withdrawnIds([opening, erased, ...claims]).size).toBe(0);
});

test('two entries that take each other back leave the later one standing', () => {
  const a = entry('a', 'undone', { entry: 'b' });
  const b = entry('b', 'undone', { entry: 'a' });
  expect([...withdrawnIds([a, b])]).toEqual(['a']);
});

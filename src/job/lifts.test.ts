import { expect, test } from 'vitest';
import { Bench, entry, openJob } from '../../test/job/given.ts';
import { entryData, entryVersions } from './entry-kinds.ts';
import { journalOf } from './journal.ts';
import { dataComplaint, liftedData, understood } from './lifts.ts';

/** A kind that has had three forms: a gap in inches, then in millimetres, then with a side. */
const table = {
  versions: { 'gap-measured': 3 },
  lifts: {
    'gap-measured': [
      (data: object) => ({ gapMm: 25.4 * (data as { gapInch: number }).gapInch }),
      (data: object) => ({ ...data, side: 'unknown' }),
    ],
  },
};

test('an old entry is lifted step by step, and is not changed itself', () => {
  const first = entry('g', 'gap-measured', { gapInch: 2 });
  const before = structuredClone(first);
  expect(liftedData(first, table)).toEqual({ gapMm: 50.8, side: 'unknown' });
  expect(first).toEqual(before);
  expect(liftedData(entry('g', 'gap-measured', { gapMm: 7 }, { version: 2 }), table)).toEqual({
    gapMm: 7,
    side: 'unknown',
  });
  const newest = { gapMm: 7, side: 'left' };
  expect(liftedData(entry('g', 'gap-measured', newest, { version: 3 }), table)).toEqual(newest);
});

test('a version or kind from the future is not guessed at', () => {
  expect(liftedData(entry('g', 'gap-measured', {}, { version: 4 }), table)).toBeNull();
  expect(liftedData(entry('g', 'seat-heated', {}), table)).toBeNull();
  expect(liftedData(entry('g', 'constructor', {}), table)).toBeNull();
});

test('every kind has a version, and every version a kind', () => {
  expect(Object.keys(entryVersions).sort()).toEqual(Object.keys(entryData).sort());
});

test('what is not understood is kept, counted, and has no effect', () => {
  const bench = new Bench().does(openJob);
  const strangers = [
    entry('s1', 'seat-heated', { degrees: 30 }, { sequence: 2 }),
    entry('s2', 'note-added', { text: 'from the future' }, { sequence: 3, version: 2 }),
    entry('s3', 'note-added', { text: 17 }, { sequence: 4 }),
  ];
  const journal = journalOf('j1', [...bench.entries, ...strangers]);
  expect(journal.state).toMatchObject({ entries: 4, notUnderstood: 3, notes: [] });
  expect([...journal.entries.keys()]).toContain('s1');
});

test('data that break the form of their kind are complained about, by field', () => {
  expect(dataComplaint(entry('n', 'note-added', { text: '' }))).toMatch(/^data\.text: /);
  expect(dataComplaint(entry('n', 'note-added', { text: 'fine' }))).toBeNull();
  expect(dataComplaint(entry('n', 'seat-heated', { anything: 1 }))).toBeNull();
  expect(understood(entry('n', 'note-added', { text: 'fine' }))).toMatchObject({ data: { text: 'fine' } });
});

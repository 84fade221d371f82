import { expect, test } from 'vitest';
import { entry } from '../../test/job/given.ts';
import { entryBytesMax } from './entries.ts';
import { entryComplaints } from './entry-complaints.ts';

test.each([
  ['of another job', entry('n', 'note-added', { text: 'x' }, { job: 'j2' }), 'entry-foreign'],
  ['whose data are not of its kind', entry('n', 'note-added', { words: 'x' }), 'entry-invalid'],
  ['with half a character', entry('n', 'note-added', { text: '\ud800' }), 'entry-invalid'],
  ['larger than any should be', entry('n', 'other', { text: 'x'.repeat(entryBytesMax) }), 'entry-too-large'],
])('an entry %s is not written', (_, bad, code) => {
  expect(entryComplaints(bad, 'j1')).toMatchObject([{ code, where: 'entry n', mend: expect.any(String) }]);
});

test('what is new to this version is', () => {
  expect(entryComplaints(entry('n', 'seat-heated', { degrees: 30 }), 'j1')).toEqual([]);
});

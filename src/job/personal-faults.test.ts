import { expect, test } from 'vitest';
import { Bench, openJob, sha256 } from '../../test/job/given.ts';
import { personalFaults } from './personal-faults.ts';

const bench = new Bench().does(openJob, { command: 'describeVehicle', owner: 'Wenbury Library', plate: 'WB 12 XYZ' });
const [owner, plate] = bench.records;
const erased = new Bench();
erased.entries.push(...bench.entries);
erased.does({ command: 'erasePersonal', records: [plate.id] });
const gone = { ...plate, salt: null, value: null, erasedWhen: '2026-03-04T09:00:00.000Z' };

const codes = (entries: Bench['entries'], records: Parameters<typeof personalFaults>[1]) =>
  personalFaults(entries, records, sha256).faults.map(({ code }) => code);

test('records as they were entered are held', () => {
  expect(personalFaults(bench.entries, bench.records, sha256)).toEqual({
    counts: { held: 2, erased: 0, leftOut: 0 },
    faults: [],
  });
});

test('records that were left out, or erased by an entry, are no fault', () => {
  const left = { ...owner, salt: null, value: null };
  expect(personalFaults(erased.entries, [left, gone], sha256)).toEqual({
    counts: { held: 0, erased: 1, leftOut: 1 },
    faults: [],
  });
});

test('an altered value or kind, a missing record, and erasing in silence are faults', () => {
  expect(codes(bench.entries, [{ ...owner, value: 'Somebody' }, plate])).toEqual(['personal-altered']);
  expect(codes(bench.entries, [{ ...owner, kind: 'phone' }, plate])).toEqual(['personal-altered']);
  expect(codes(bench.entries, [owner])).toEqual(['personal-missing']);
  expect(codes(bench.entries, [owner, gone])).toEqual(['personal-erased-silently']);
});

test('what an entry erased must be gone, salt and all', () => {
  expect(codes(erased.entries, [owner, plate])).toEqual(['personal-not-erased']);
  expect(codes(erased.entries, [owner, { ...gone, salt: plate.salt }])).toEqual(['personal-not-erased']);
});

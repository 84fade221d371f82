import { expect, test } from 'vitest';
import { againstSheet, asSheet, type SheetOfDriver } from './against-sheet.ts';
import type { MeasuredDriver } from './impedance-reading.ts';

const sheet = { reOhm: 3.3, fsHz: 62, qms: 5.4, qes: 0.66, qts: 0.588 };
const measured = (changes: Partial<MeasuredDriver>): MeasuredDriver => ({
  ...sheet,
  mostOhm: 30,
  leMh: 0.4,
  sigmaPct: { reOhm: 0, fsHz: 0, qts: 0 },
  fitErrorPct: 0.1,
  ...changes,
});
const compare = (changes: Partial<MeasuredDriver>, said: SheetOfDriver = sheet) =>
  againstSheet(measured(changes), said, 1, 'one');

test('one of its make agrees, and what the plan does not say is not judged', () => {
  expect(compare({ fsHz: 57, qts: 0.55 }).verdict).toBe('agrees');
  const bare = compare({}, { reOhm: 3.3 });
  expect(bare.verdict).toBe('agrees');
  expect(bare.values.map(({ agrees }) => agrees)).toEqual([true, null, null, null, null]);
  expect(compare({}, {}).verdict).toBe('nothing-to-compare');
});

test('a softer suspension is told as one: in a box it does nearly the same', () => {
  const { verdict, says } = compare({ fsHz: 49, qms: 4.3, qes: 0.52, qts: 0.464 });
  expect(verdict).toBe('differs');
  expect(says).toMatch(/suspension is softer .*resonance 21 % lower.*nearly the same/);
});

test('a weak motor is not: the box must be planned anew', () => {
  expect(compare({ qes: 0.9, qts: 0.77 }).says).toBe(
    'Electrical Q is 36 % higher than the plan says. Total Q is 31 % higher than the plan says. Plan the box with what was measured.',
  );
});

test('a coil of twice the ohms is the other version, one of a third more is leads or another driver', () => {
  expect(compare({ reOhm: 6.7 }).says).toContain('2 times what the plan says');
  expect(compare({ reOhm: 4.4 }).says).toContain('leads that were not taken off');
});

test('two coils are held against the sheet by how they were joined, and come back as the sheet of one', () => {
  // Bl of both is twice that of one, and so is their resistance in series: Qes = w m R / Bl^2 doubles for one alone.
  const one = measured({ qes: 1.32, qts: 1.0607 });
  expect(againstSheet(one, sheet, 2, 'one').verdict).toBe('agrees');
  expect(againstSheet(one, sheet, 2, 'series').verdict).toBe('differs');
  expect(againstSheet(measured({ reOhm: 6.6 }), sheet, 2, 'series').verdict).toBe('agrees');
  expect(againstSheet(measured({ reOhm: 1.65 }), sheet, 2, 'parallel').verdict).toBe('agrees');
  expect(asSheet(measured({ reOhm: 6.6 }), 2, 'series').reOhm).toBeCloseTo(3.3, 12);
  expect(asSheet(one, 2, 'one').qes).toBeCloseTo(0.66, 12);
});

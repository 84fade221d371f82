import { expect, test } from 'vitest';
import { driver } from './driver-parts.ts';
import { driversFromTable } from './parts-csv.ts';
import { driverShelf } from './parts-library.ts';

const complaints = (text: string) => {
  const read = driversFromTable(text);
  return read.ok ? [] : read.issues.map(({ where, message }) => `${where}: ${message}`);
};

test('semicolons with decimal commas, and commas with decimal points, say the same', () => {
  const german = driversFromTable('\uFEFFid;Model;fs (Hz);Re [ohm];Sd cm2\r\nD1;T25;1250;3,4;7,1\r\n');
  const english = driversFromTable('id,model,fsHz,reOhm,sdCm2\nD1,T25,1250,3.4,7.1\n');
  expect(german).toEqual({ ok: true, value: [{ id: 'D1', model: 'T25', fsHz: 1250, reOhm: 3.4, sdCm2: 7.1 }] });
  expect(english).toEqual(german);
});

test('other units are turned into those of the plan', () => {
  const read = driversFromTable('id\tsd (m2)\tmms (kg)\nD1\t0.0132\t0.016');
  const value = read.ok ? read.value[0] : null;
  expect(value?.sdCm2).toBeCloseTo(132, 9);
  expect(value?.mmsG).toBeCloseTo(16, 9);
});

test('quotes keep a separator, a number as a model stays text, empty cells say nothing', () => {
  const read = driversFromTable('id,name,model,qts\nD1,"Door, ""left""",165,\n\n');
  expect(read).toEqual({ ok: true, value: [{ id: 'D1', name: 'Door, "left"', model: '165' }] });
});

test('every complaint has its line', () => {
  expect(complaints('')).toEqual(['line 1: The table is empty.']);
  expect(complaints('id,wheels\nD1,4')).toEqual(['line 1: There is no column "wheels".']);
  expect(complaints('id,fsHz,Fs (Hz)\nD1,4,4')[0]).toContain('twice');
  const [number, negative, many] = complaints('id,fsHz\nD1,abc\nD2,-4\nD3,3,4\n');
  expect(number).toMatch(/^line 2: fsHz/);
  expect(negative).toMatch(/^line 3: fsHz/);
  expect(many).toMatch(/^line 4: The line has 3 cells/);
  expect(complaints('__proto__,id\nx,D1')[0]).toContain('no column');
});

test('the shelf holds drivers that could be entered', () => {
  for (const sheet of Object.values(driverShelf)) expect(driver.safeParse({ ...sheet, id: 'D1' }).success).toBe(true);
});

import { expect, test } from 'vitest';
import { againstSheet } from '../../../drivers/impedance/against-sheet.ts';
import type { ImpedanceReading } from '../../../drivers/impedance/impedance-reading.ts';
import type { PartOf } from '../../../plan/plan.ts';
import {
  comparedText,
  differsText,
  driverAsMeasured,
  impedanceOverPlan,
  impedanceSentence,
  resistorCaution,
} from './impedance-words.ts';

const style = { decimal: '.' } as const;
const driver: PartOf<'driver'> = { id: 'D1', kind: 'midbass', reOhm: 3.3, fsHz: 50, qms: 5.4, qes: 0.66, qts: 0.588 };
const reading: ImpedanceReading = {
  curve: { fHz: [8, 31, 62, 124, 9000], ohm: [3.3, 5, 30, 5, 20], phaseDeg: [0, 30, 0, -30, 60] },
  driver: {
    reOhm: 3.3,
    fsHz: 62,
    qms: 5.4,
    qes: 0.66,
    qts: 0.588,
    mostOhm: 30.3,
    leMh: 0.4,
    sigmaPct: { reOhm: 0.1, fsHz: 0.1, qts: 0.2 },
    fitErrorPct: 0.1,
  },
};
const compared = againstSheet(reading.driver, driver, 1, 'one');
const wish = { driver, name: 'W165', range: { fromHz: 20, toHz: 5000 }, joined: 'one', sentence: 's', style } as const;

test('the plan alone, what was measured over it, or neither: each plot says what it shows', () => {
  const alone = impedanceOverPlan({ ...wish, reading: null, seriesOhm: undefined });
  expect(alone?.curves.map(({ label }) => label)).toEqual(['by the plan']);
  const both = impedanceOverPlan({ ...wish, reading, seriesOhm: 10.1 });
  expect(both?.curves.map(({ label }) => label)).toEqual(['measured', 'by the plan']);
  expect(Array.from(both?.curves[0].x ?? [])).toEqual([31, 62, 124]);
  expect(both?.state).toBe('W165, free in the air; measured, through 10.1 ohm.');
  expect(both?.marks?.[0]).toMatchObject({ x: 62, label: '62 Hz' });
  expect(impedanceOverPlan({ ...wish, driver: { id: 'D1' }, reading: null, seriesOhm: 1 })).toBeNull();
});

test('its sentence gives resonance, total Q and resistance beside those of the plan', () => {
  expect(impedanceSentence(reading.driver, compared, driver, style)).toBe(
    'Measured: resistance of the coil 3.3 ohm (plan 3.3 ohm), resonance 62 Hz (plan 50 Hz), total Q 0.588 (plan 0.588).',
  );
  expect(impedanceSentence(null, null, driver, style)).toBe('By the plan its resonance is 50 Hz.');
  const bare = againstSheet(reading.driver, { reOhm: 3.3 }, 1, 'one');
  expect(impedanceSentence(reading.driver, bare, driver, style)).toContain('resonance 62 Hz, total Q');
});

test('a value that the plan lacks is said to be lacking', () => {
  const [re, fs] = compared.values;
  expect(comparedText(re, null, style)).toBe('not in the plan');
  expect([comparedText(fs, fs.sheet, style), differsText(fs, style)]).toEqual(['50 Hz', '+24 %']);
  expect(differsText({ ...fs, differsPct: null }, style)).toBe('');
  expect(differsText({ ...fs, differsPct: -0.3 }, style)).toBe('0 %');
  expect(differsText({ ...fs, differsPct: -12.4 }, style)).toBe('\u221212 %');
});

test('the plan takes the values of one coil to four figures, and keeps the rest', () => {
  const two = { ...driver, coils: 2, vasL: 12 };
  const measured = { ...reading.driver, reOhm: 6.612345 };
  expect(driverAsMeasured(two, measured, 'series')).toEqual({ ...two, reOhm: 3.306, fsHz: 62, qts: 0.5881 });
  expect(driverAsMeasured(driver, { ...measured, qms: 1000, qes: 1000 }, 'one')).toBeNull();
});

test('the resistor is told what it bears: five volts across ten ohm are two and a half watts', () => {
  expect(resistorCaution(10, style)).toContain('at 5 V up to 2.5 W in 10 ohm');
});

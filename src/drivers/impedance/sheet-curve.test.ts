import { expect, test } from 'vitest';
import { driverMotion } from '../motion.ts';
import { sheetCurve } from './sheet-curve.ts';

const sheet = { reOhm: 3.3, fsHz: 62, qms: 5.4, qes: 0.66, leMh: 0.4 };
const fHz = [10, 40, 62, 90, 200, 1000, 5000];

test('it is what an amplifier sees of the same driver without a box', () => {
  const { leMh, ...values } = sheet;
  const motion = driverMotion(
    { ...values, sdM2: 0.013, mmsKg: 0.014, coil: { leH: leMh / 1000 } },
    { kind: 'infinite-baffle' },
    0,
  );
  const curve = sheetCurve(sheet, 1, 'one', fHz);
  fHz.forEach((f, n) => {
    expect(curve?.[n]).toBeCloseTo(motion(f).impedanceOhm, 6);
  });
});

test('two coils in series have four times the ohms of both side by side, at every frequency', () => {
  const series = sheetCurve(sheet, 2, 'series', fHz) ?? [];
  const parallel = sheetCurve(sheet, 2, 'parallel', fHz) ?? [];
  fHz.forEach((_, n) => {
    expect(series[n] / parallel[n]).toBeCloseTo(4, 9);
  });
});

test('a sheet without a Q promises no curve', () => {
  expect(sheetCurve({ reOhm: 3.3, fsHz: 62, qms: 5.4 }, 1, 'one', fHz)).toBeNull();
});

import { expect, test } from 'vitest';
import { planView } from '../../job/rules/plan-view.ts';
import { changed } from '../../plan/changes.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import {
  cornersFor,
  type DriverInSystem,
  driverInSystem,
  highPassRows,
  limitCurves,
  safeHighPass,
  sheetCheck,
  withHighPass,
} from './driver-model.ts';

const seven = templatePlan('seven-channel');

function systemOf(plan: Plan, id: string): DriverInSystem {
  const view = planView(plan);
  const driver = view.part('driver', id) as PartOf<'driver'>;
  const found = driverInSystem(view, driver);
  if ('needs' in found) throw new Error(found.needs);
  return found;
}

test('a published case: 3.4 ohm tweeter, Fs 900 Hz, 0.35 mm, 12 V needs 1350 Hz at 24 dB an octave, by resonance', () => {
  const driver: PartOf<'driver'> = {
    id: 'D1',
    kind: 'tweeter',
    place: 'P1',
    coils: 1,
    coilOhm: 4,
    reOhm: 3.4,
    fsHz: 900,
    qms: 2.2,
    qes: 1.1,
    sdCm2: 7.1,
    mmsG: 0.45,
    xmaxMm: 0.35,
    thermalW: 25,
  };
  const safe = safeHighPass(systemOf(changed(seven, { part: 'driver', id: 'D1', value: driver }), 'D1'));
  expect(safe).toMatchObject({ resonanceHz: 1350, resonanceTimes: 1.5, makerHz: null, safeHz: 1350 });
  expect(safe.strokeHz).toBeGreaterThan(500);
});

test('a higher high-pass moves the cone less and plays louder until another limit binds', () => {
  const system = systemOf(seven, 'D3');
  const rows = highPassRows(system, [60, 90, 150, 300, 450]);
  expect(rows.map(({ travelMm }) => travelMm)).toEqual([...rows.map(({ travelMm }) => travelMm)].sort((a, b) => b - a));
  expect(rows[3]).toMatchObject({ planned: true, gainDb: 0 });
  expect(rows[0].gainDb).toBeLessThan(0);
  expect(rows[0].withinStroke).toBe(false);
});

test('travel at the safe high-pass is the stroke, and just below it more', () => {
  const system = systemOf(seven, 'D3');
  const { strokeHz } = safeHighPass(system);
  const most = (hz: number) => Math.max(...limitCurves(system, withHighPass(system, hz)).travelMm);
  expect(most(strokeHz as number)).toBeCloseTo(3, 1);
  expect(most(0.9 * (strokeHz as number))).toBeGreaterThan(3);
});

test('the limits cross where travel gives way: below it the cone is at its stroke before the amplifier clips', () => {
  const system = systemOf(seven, 'D3');
  const curves = limitCurves(system, withHighPass(system, 60));
  expect(curves.crossing).not.toBeNull();
  const at = curves.fHz.indexOf(curves.crossing?.fHz ?? 0);
  expect(curves.travelDb[at - 20]).toBeLessThan(Math.min(curves.amplifierDb[at - 20], curves.heatDb?.[at - 20] ?? 999));
});

test('what is not known is named', () => {
  const { driver } = systemOf(seven, 'D3');
  const { xmaxMm: _, ...without } = driver;
  const view = planView(changed(seven, { part: 'driver', id: 'D3', value: without }));
  expect(driverInSystem(view, without)).toEqual({ needs: 'how far its cone may move' });
});

test('a sheet that contradicts itself says which figure, what follows, and by how much', () => {
  // Qts of 4 and 0.7 is 0.5957; the sheet says 0.70.
  const check = sheetCheck({ id: 'D', fsHz: 85, qms: 4, qes: 0.7, qts: 0.7 });
  expect(check?.rows).toHaveLength(1);
  expect(check?.rows[0].follows).toBeCloseTo(2.8 / 4.7, 9);
  expect(check?.rows[0]).toMatchObject({ name: 'Total Q', broken: true });
  expect(check?.suspects).toContain('qts');
  expect(sheetCheck({ id: 'D', fsHz: 85 })).toBeNull();
});

test('rows stand around what is planned and what is safe', () => {
  expect(cornersFor(70, 128)).toContain(70);
  expect(cornersFor(70, 128)).toContain(128);
  expect(cornersFor(null, null)[0]).toBeNull();
});

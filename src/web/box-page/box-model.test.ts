import { expect, test } from 'vitest';
import { forecastOf } from '../../job/rules/driver-limits.ts';
import { planView } from '../../job/rules/plan-view.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import {
  type BoxSystem,
  boxCurves,
  closedFacts,
  closedLitres,
  coneMm,
  cutList,
  driverTakesL,
  holdingForce,
  portOf,
  roomBefore,
  startingBox,
} from './box-model.ts';

const view = planView(templatePlan('seven-channel'));
const lane = view.lanes[6];
const forecast = forecastOf(view, lane, lane.drivers[0]);
if ('needs' in forecast) throw new Error(forecast.needs);
const system: BoxSystem = {
  driver: forecast.driven.driver,
  ampVrms: forecast.ampVrms,
  filters: forecast.driven.filters,
  drivers: 1,
};
const closed = { ...startingBox(system, undefined), kind: 'sealed' as const };
const vented = { ...closed, kind: 'vented' as const, netL: 50, tuningHz: 30, portAreaCm2: 120, ports: 1 };

test('a closed box for a wanted Q has that Q, and a larger one a lower', () => {
  const netL = closedLitres(system, 0.9) as number;
  expect(closedFacts(system, { ...closed, netL })?.qtc).toBeCloseTo(0.9, 2);
  expect(closedFacts(system, { ...closed, netL: 2 * netL })?.qtc).toBeLessThan(0.9);
  expect(closedLitres(system, 0.3)).toBeNull();
});

test('the response of a closed box is 3 dB down where its formula says, and flat far above', () => {
  const curves = boxCurves(system, closed);
  expect(curves.f3Hz).toBeCloseTo(closedFacts(system, closed)?.f3Hz ?? 0, -1);
  expect(Math.abs(curves.responseDb[curves.responseDb.length - 1])).toBeLessThan(0.5);
  expect(curves.portMps).toBeNull();
});

test('a vented box moves its cone least at its tuning, where the port carries the sound and impedance is low', () => {
  const { fHz, travelMm, portMps, impedanceOhm } = boxCurves({ ...system, filters: [] }, vented);
  const near = fHz.findIndex((f) => f >= 30);
  expect(travelMm[near]).toBeLessThan(travelMm[fHz.findIndex((f) => f >= 15)]);
  expect(travelMm[near]).toBeLessThan(travelMm[fHz.findIndex((f) => f >= 45)]);
  expect(portMps?.[near]).toBeGreaterThan(portMps?.[fHz.findIndex((f) => f >= 80)] ?? Number.NaN);
  expect(impedanceOhm[near]).toBeLessThan(impedanceOhm[fHz.findIndex((f) => f >= 45)]);
  // Helmholtz: c / 2 pi sqrt(S / V (L + 1.463 r)).
  const { lengthM } = portOf(vented) ?? { lengthM: Number.NaN };
  const whole = lengthM + 1.463 * Math.sqrt(0.012 / Math.PI);
  expect((343.2 / (2 * Math.PI)) * Math.sqrt(0.012 / (0.05 * whole))).toBeCloseTo(30, 6);
});

test('the cut list holds the volume: inside width, height and depth make net, driver and port', () => {
  const list = cutList(closed, { widthMm: 500, heightMm: 350, panelMm: 18, takenL: 2.5 });
  expect(list).not.toBeNull();
  if (list === null) return;
  expect((464 * 314 * list.insideDepthMm) / 1e6).toBeCloseTo(closed.netL + 2.5, 6);
  expect(list.depthMm).toBeCloseTo(list.insideDepthMm + 36, 9);
  expect(list.panels.reduce((sum, { count }) => sum + count, 0)).toBe(6);
  expect(cutList(closed, { widthMm: 30, heightMm: 350, panelMm: 18, takenL: 0 })).toBeNull();
});

test('30 kg ask for 5886 N forward, half of it sideways, and four bolts take a quarter each', () => {
  const force = holdingForce(30, 4);
  expect(force.forwardN).toBeCloseTo(5886, 0);
  expect(force.sidewaysN).toBeCloseTo(2943, 0);
  expect(force.eachN).toBeCloseTo(1471.5, 1);
  expect(holdingForce(30, undefined).eachN).toBeNull();
});

test('room before the cone is what is left after its stroke, and what is not known is not told', () => {
  const [driver] = lane.drivers;
  expect(coneMm({ id: 'D', sdCm2: 330 })).toBeCloseTo(20 * Math.sqrt(330 / Math.PI), 6);
  expect(roomBefore(driver)).toBeNull();
  expect(roomBefore({ ...driver, gapUnderConeMm: 60 })).toMatchObject({ freeMm: 42 });
  expect(roomBefore({ ...driver, gapUnderConeMm: 15 })?.verdict).toBe('stop');
  expect(driverTakesL(driver)).toBeGreaterThan(0.5);
});

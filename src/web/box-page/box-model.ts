// A box that is tried: what driver and box do together, how the cone and the port fare, and what must be sawn.
import { dbFromAmplitude } from '../../base/decibel.ts';
import { airKgPerM3 } from '../../drivers/air.ts';
import { type Box, qlDefault } from '../../drivers/box.ts';
import { clearance } from '../../drivers/cabin.ts';
import { type Driver, deriveDriver } from '../../drivers/driver.ts';
import { channelLevelDb, type DrivenDriver, logSpaced } from '../../drivers/limits.ts';
import { driverMotion } from '../../drivers/motion.ts';
import { portLength } from '../../drivers/port.ts';
import { sealedBox, sealedVolume } from '../../drivers/sealed-box.ts';
import { driverVolumeM3 } from '../../drivers/volumes.ts';
import { forecastOf } from '../../job/rules/driver-limits.ts';
import { planView } from '../../job/rules/plan-view.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import type { PlannedFilter } from '../../signals/filters/crossover-level.ts';

export interface TriedBox {
  kind: 'sealed' | 'vented' | 'infinite-baffle';
  /** For all drivers in it. */
  netL: number;
  fillGain: number;
  tuningHz: number;
  /** All ports together. */
  portAreaCm2: number;
  ports: number;
}

/** The system that drives it. */
export interface BoxSystem {
  driver: Driver;
  ampVrms: number;
  filters: readonly PlannedFilter[];
  /** Equaliser bands of its channel. */
  eq?: NonNullable<DrivenDriver['eq']>;
  /** Alike, in the one box. */
  drivers: number;
}

/** The driver as its amplifier feeds it, whatever box the plan has for it. */
export function boxSystem(plan: Plan, driver: PartOf<'driver'>): BoxSystem | { needs: string } {
  const { enclosure, ...bare } = driver;
  const without = { ...plan, driver: plan.driver.map((known) => (known.id === driver.id ? bare : known)) };
  const view = planView(without);
  const [lane] = view.lanesOf(driver.id);
  if (lane === undefined) return { needs: 'the amplifier channel that drives it' };
  const forecast = forecastOf(view, lane, bare);
  if ('needs' in forecast) return forecast;
  const mates = enclosure === undefined ? 1 : plan.driver.filter((known) => known.enclosure === enclosure).length;
  const { driven, ampVrms } = forecast;
  return { driver: driven.driver, ampVrms, filters: driven.filters, eq: driven.eq ?? [], drivers: Math.max(1, mates) };
}

const rangeHz = { fromHz: 10, toHz: 200 };
const points = 180;
export const portUsualMps = 25;
export const boxRange = rangeHz;

/** The air that one of the drivers has to itself. */
export function boxOf({ kind, netL, fillGain, tuningHz, portAreaCm2 }: TriedBox, drivers: number): Box {
  if (kind === 'infinite-baffle') return { kind };
  const vbM3 = netL / 1000 / drivers;
  if (kind === 'sealed') return { kind, vbM3, fillGain };
  return { kind, vbM3, fillGain, fbHz: tuningHz, ql: qlDefault, portAreaM2: portAreaCm2 / 1e4 / drivers };
}

export interface BoxCurves {
  fHz: number[];
  /** Against the level far above the resonance. */
  responseDb: number[];
  /** At the amplifier's clip voltage, behind the channel's filters. */
  travelMm: number[];
  /** Null without a port. */
  portMps: number[] | null;
  impedanceOhm: number[];
  /** Lowest frequency from which it stays above -3 dB; null where it never does. */
  f3Hz: number | null;
}

export function boxCurves({ driver, ampVrms, drivers, ...channel }: BoxSystem, tried: TriedBox): BoxCurves {
  const box = boxOf(tried, drivers);
  const fHz = Array.from(logSpaced(rangeHz.fromHz, rangeHz.toHz, points));
  // The coil's inductance would bend the response far above where a box matters.
  const plain = driverMotion({ ...driver, coil: { leH: 0 } }, box, 0);
  const motion = driverMotion(driver, box, 0);
  const far = (airKgPerM3 * driver.sdM2 * deriveDriver(driver).blTm) / (2 * Math.PI * driver.reOhm * driver.mmsKg);
  const responseDb = fHz.map((f) => dbFromAmplitude(plain(f).pressurePa / far));
  // Behind a boost the amplifier has no more than its clip voltage.
  const volt = fHz.map((f) => ampVrms * 10 ** (Math.min(0, channelLevelDb(channel, f)) / 20));
  const moves = fHz.map(motion);
  const areaM2 = 'portAreaM2' in box ? box.portAreaM2 : undefined;
  const firstDown = responseDb.findLastIndex((db) => db < -3);
  return {
    fHz,
    responseDb,
    travelMm: fHz.map((_, i) => 1000 * moves[i].xPeakM * volt[i]),
    portMps: areaM2 === undefined ? null : fHz.map((_, i) => (Math.SQRT2 * moves[i].portFlowM3PerS * volt[i]) / areaM2),
    impedanceOhm: moves.map(({ impedanceOhm }) => impedanceOhm),
    f3Hz: firstDown === fHz.length - 1 ? null : fHz[firstDown + 1],
  };
}

/** Q and resonance of a closed box; null for another kind. */
export function closedFacts({ driver, drivers }: BoxSystem, { kind, netL, fillGain }: TriedBox) {
  return kind === 'sealed' ? sealedBox(driver, netL / 1000 / drivers, fillGain, 0) : null;
}

/** Net litres of a closed box for a wanted Q, all drivers together; null where no box gives it. */
export function closedLitres({ driver, drivers }: BoxSystem, qtc: number): number | null {
  const found = sealedVolume(driver, qtc, 1, 0);
  return found.ok ? Number((1000 * found.value * drivers).toPrecision(3)) : null;
}

/** What the plan has, or where to begin: a closed box of Q 0.8, or the equivalent air. */
export function startingBox(system: BoxSystem, planned: PartOf<'enclosure'> | undefined): TriedBox {
  const kind =
    planned?.kind === 'vented' ? 'vented' : planned?.kind === 'infinite-baffle' ? 'infinite-baffle' : 'sealed';
  const vasL = 1000 * deriveDriver(system.driver).vasM3 * system.drivers;
  const netL = planned?.netL ?? closedLitres(system, 0.8) ?? Number(vasL.toPrecision(2));
  return {
    kind,
    netL,
    fillGain: planned?.fillGain ?? 1,
    tuningHz: planned?.tuningHz ?? Math.max(20, Math.round(system.driver.fsHz)),
    portAreaCm2: planned?.portAreaCm2 ?? Math.round(0.25 * 1e4 * system.driver.sdM2 * system.drivers),
    ports: 1,
  };
}

/** Length of each port; null without one, or where the ends alone are too long. */
export function portOf({ kind, netL, tuningHz, portAreaCm2, ports }: TriedBox) {
  if (kind !== 'vented') return null;
  const found = portLength(netL / 1000, tuningHz, {
    count: ports,
    areaM2: portAreaCm2 / 1e4 / ports,
    ends: 'one-flanged',
  });
  return found.ok ? found.value : null;
}

/** Outside measures that are set; the depth follows from the volume. */
export interface Carcass {
  widthMm: number;
  heightMm: number;
  panelMm: number;
  /** Driver and bracing, L. */
  takenL: number;
}

/** Board that does not sound along: 18 mm, and 25 mm from 60 litres up or above a kilowatt. Practice. */
export function usualPanelMm(netL: number, powerW: number): number {
  return netL > 60 || powerW > 1000 ? 25 : 18;
}

export interface CutPanel {
  name: string;
  count: number;
  widthMm: number;
  heightMm: number;
}

export interface CutList {
  depthMm: number;
  insideDepthMm: number;
  grossL: number;
  portL: number;
  panels: CutPanel[];
  areaM2: number;
  massKg: number;
}

/** Density of medium-density fibreboard, kg/m3; the usual figure of its makers. */
const boardKgPerM3 = 750;

/**
 * Panels of a box with butt joints: front and back over the edges of the others. Null where panels leave no room.
 *
 * Source: geometry; a port is taken as its air, its walls come on top.
 */
export function cutList(tried: TriedBox, { widthMm, heightMm, panelMm, takenL }: Carcass): CutList | null {
  const [inWidth, inHeight] = [widthMm - 2 * panelMm, heightMm - 2 * panelMm];
  if (tried.kind === 'infinite-baffle' || inWidth <= 0 || inHeight <= 0) return null;
  const portL = 1000 * (portOf(tried)?.volumeM3 ?? 0);
  const grossL = tried.netL + takenL + portL;
  const insideDepthMm = (grossL * 1e6) / (inWidth * inHeight);
  const depthMm = insideDepthMm + 2 * panelMm;
  const panels: CutPanel[] = [
    { name: 'front and back', count: 2, widthMm, heightMm },
    { name: 'top and bottom', count: 2, widthMm, heightMm: insideDepthMm },
    { name: 'sides', count: 2, widthMm: insideDepthMm, heightMm: inHeight },
  ];
  const areaM2 = panels.reduce((sum, panel) => sum + (panel.count * panel.widthMm * panel.heightMm) / 1e6, 0);
  return { depthMm, insideDepthMm, grossL, portL, panels, areaM2, massKg: (areaM2 * panelMm * boardKgPerM3) / 1000 };
}

/** Volume that a driver takes, L: from its depth and cone where its maker does not say, 70 % of the upper bound. */
export function driverTakesL(driver: PartOf<'driver'>): number | null {
  const cone = coneMm(driver);
  if (cone === null || driver.depthMm === undefined) return null;
  const basketM = (1.15 * cone) / 1000;
  const depthM = driver.depthMm / 1000;
  const upper = driverVolumeM3({ basketM, magnetM: 0.55 * basketM, depthM, magnetDepthM: 0.3 * depthM });
  return Number((700 * upper).toPrecision(2));
}

/** Diameter of the cone, mm: as measured, else that of its area. */
export function coneMm({ coneDiameterMm, sdCm2 }: PartOf<'driver'>): number | null {
  return coneDiameterMm ?? (sdCm2 === undefined ? null : 20 * Math.sqrt(sdCm2 / Math.PI));
}

export interface Room {
  gapMm: number;
  freeMm: number;
  verdict: string;
}

/** Room before the cone; null where gap or cone is not known. */
export function roomBefore(driver: PartOf<'driver'>): Room | null {
  const cone = coneMm(driver);
  const stroke = driver.xmechMm ?? driver.xmaxMm;
  if (driver.gapUnderConeMm === undefined || cone === null || stroke === undefined) return null;
  const { freeAfterStrokeMm, verdict } = clearance(cone, stroke, driver.gapUnderConeMm);
  return { gapMm: driver.gapUnderConeMm, freeMm: freeAfterStrokeMm, verdict };
}

const gravity = 9.81;
/** Planning load against the weight: forward, and to the side. Trade practice for what must stay put in a crash. */
const forwardTimes = 20;
const sidewaysTimes = 10;

/** What fixings must hold, N. */
export function holdingForce(massKg: number, fixings: number | undefined) {
  const forwardN = massKg * gravity * forwardTimes;
  return {
    forwardN,
    sidewaysN: massKg * gravity * sidewaysTimes,
    eachN: fixings === undefined || fixings < 1 ? null : forwardN / fixings,
  };
}

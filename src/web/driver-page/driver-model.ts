// A driver in this system: its limits against frequency, what a high-pass moves, and which one is safe.
import { dbFromAmplitude } from '../../base/decibel.ts';
import { zeroDbPa } from '../../drivers/air.ts';
import { checkDatasheet, type Datasheet } from '../../drivers/datasheet.ts';
import {
  bindingLimit,
  channelLevelDb,
  type DrivenDriver,
  type Limit,
  logSpaced,
  minHighPass,
  strokeAtClip,
} from '../../drivers/limits.ts';
import { driverMotion } from '../../drivers/motion.ts';
import { type SheetProposal, type SheetValue, sheetProposal } from '../../drivers/rebuilt-sheet.ts';
import { forecastOf } from '../../job/rules/driver-limits.ts';
import type { Lane, PlanView } from '../../job/rules/plan-view.ts';
import { sheetOf } from '../../job/rules/sheet-of-driver.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { PlannedFilter } from '../../signals/filters/crossover-level.ts';

type Driver = PartOf<'driver'>;
export type Edge = Pick<PlannedFilter, 'family' | 'order'>;

/** Where music has power. */
const lowestHz = 20;
const highestHz = 20_000;
/** 96 an octave. */
const searchPoints = 1150;

/** Ranges of the plots, by what a driver plays. */
export const ranges: Record<NonNullable<Driver['kind']>, { fromHz: number; toHz: number }> = {
  tweeter: { fromHz: 200, toHz: 20_000 },
  mid: { fromHz: 20, toHz: 10_000 },
  midbass: { fromHz: 20, toHz: 5000 },
  'full-range': { fromHz: 20, toHz: 20_000 },
  sub: { fromHz: 10, toHz: 500 },
};

export interface DriverInSystem {
  driver: Driver;
  lane: Lane;
  channel: PartOf<'channel'>;
  driven: DrivenDriver;
  ampVrms: number;
  range: { fromHz: number; toHz: number };
  edge: Edge;
  /** Null: the channel has none. */
  highPassHz: number | null;
  lowPassHz: number | null;
}

/** The driver with what stands before it, or what is not known of it. */
export function driverInSystem(view: PlanView, driver: Driver): DriverInSystem | { needs: string } {
  const [lane] = view.lanesOf(driver.id);
  if (lane === undefined) return { needs: 'the amplifier channel that drives it' };
  const forecast = forecastOf(view, lane, driver);
  if ('needs' in forecast) return forecast;
  const [channel] = lane.channels;
  if (channel === undefined) return { needs: 'the processor channel that feeds it' };
  const { driven, ampVrms } = forecast;
  const high = driven.filters.find(({ type }) => type === 'hp');
  const low = driven.filters.find(({ type }) => type === 'lp');
  return {
    driver,
    lane,
    channel,
    driven,
    ampVrms,
    range: ranges[driver.kind ?? 'full-range'],
    edge: high === undefined ? { family: 'linkwitz-riley', order: 4 } : { family: high.family, order: high.order },
    highPassHz: high?.hz ?? null,
    lowPassHz: low?.hz ?? null,
  };
}

/** The same driver behind another high-pass; null takes it away. */
export function withHighPass({ driven, edge }: DriverInSystem, hz: number | null): DrivenDriver {
  const others = driven.filters.filter(({ type }) => type !== 'hp');
  return { ...driven, filters: hz === null ? others : [{ type: 'hp', ...edge, hz }, ...others] };
}

export interface LimitCurves {
  fHz: number[];
  travelDb: number[];
  heatDb: number[] | null;
  amplifierDb: number[];
  travelMm: number[];
  /** Where travel gives way to another limit, going up. */
  crossing: { fHz: number; levelDb: number } | null;
}

const plotPoints = 220;

/** Level at 1 m that each limit alone allows, and travel at the amplifier's clip voltage. */
export function limitCurves({ range, ampVrms, driver }: DriverInSystem, driven: DrivenDriver): LimitCurves {
  const motion = driverMotion(driven.driver, driven.box, driven.sourceOhm);
  const fHz = Array.from(logSpaced(range.fromHz, range.toHz, plotPoints));
  const heatV = driver.thermalW === undefined ? null : Math.sqrt(driver.thermalW * driven.driver.reOhm);
  const points = fHz.map((f) => {
    const { pressurePa, xPeakM } = motion(f);
    const perVoltDb = dbFromAmplitude(pressurePa / zeroDbPa);
    // Behind a boost the amplifier has no more than its clip voltage.
    const ampDb = dbFromAmplitude(ampVrms) + Math.min(0, channelLevelDb(driven, f));
    return {
      travelDb: perVoltDb + dbFromAmplitude(driven.xmaxM / xPeakM),
      heatDb: heatV === null ? null : perVoltDb + dbFromAmplitude(heatV),
      amplifierDb: perVoltDb + ampDb,
      travelMm: 1000 * xPeakM * 10 ** (ampDb / 20),
    };
  });
  const other = points.map(({ heatDb, amplifierDb }) => Math.min(amplifierDb, heatDb ?? Number.POSITIVE_INFINITY));
  const at = points.findLastIndex(({ travelDb }, i) => travelDb < other[i]);
  return {
    fHz,
    travelDb: points.map(({ travelDb }) => travelDb),
    heatDb: heatV === null ? null : points.map(({ heatDb }) => heatDb as number),
    amplifierDb: points.map(({ amplifierDb }) => amplifierDb),
    travelMm: points.map(({ travelMm }) => travelMm),
    crossing: at < 0 || at >= fHz.length - 1 ? null : { fHz: fHz[at], levelDb: points[at].travelDb },
  };
}

export interface HighPassRow {
  hz: number | null;
  /** Most at the amplifier's clip voltage. */
  travelMm: number;
  tightestHz: number;
  /** Clean level against the plan's. */
  gainDb: number;
  limit: Limit;
  planned: boolean;
  withinStroke: boolean;
}

/** What each of several high-passes moves. */
export function highPassRows(system: DriverInSystem, corners: readonly (number | null)[]): HighPassRow[] {
  const { driver, ampVrms, highPassHz } = system;
  const power = { thermalW: driver.thermalW ?? Number.MAX_SAFE_INTEGER, duty: 1, ampVrms };
  const binding = (hz: number | null) =>
    bindingLimit(withHighPass(system, hz), power, lowestHz, highestHz, searchPoints);
  const plan = binding(highPassHz);
  const boosted = (system.driven.eq ?? []).some(({ gainDb }) => gainDb > 0);
  return corners.map((hz) => {
    const found = hz === highPassHz ? plan : binding(hz);
    // Without a boost one drive clips the amplifier at all frequencies, and the tightest of them tells the travel.
    const travelM = boosted
      ? strokeAtClip(withHighPass(system, hz), ampVrms, lowestHz, highestHz, searchPoints).xPeakM
      : (system.driven.xmaxM * ampVrms) / found.excursionV;
    const travelMm = 1000 * travelM;
    return {
      hz,
      travelMm,
      tightestHz: found.excursionFreqHz,
      gainDb: dbFromAmplitude(found.driveV / plan.driveV),
      limit: found.limit,
      planned: hz === highPassHz,
      withinStroke: found.excursionV >= 0.995 * ampVrms,
    };
  });
}

export interface SafeHighPass {
  /** By stroke alone; null: none is needed; "none-helps": not even 20 kHz is enough. */
  strokeHz: number | null | 'none-helps';
  /** By resonance, for small drivers. */
  resonanceHz: number | null;
  resonanceTimes: number;
  makerHz: number | null;
  /** The largest of them, rounded up; null where nothing asks for one or nothing helps. */
  safeHz: number | null;
}

/** Multiple of the resonance under which a small driver is not crossed: trade practice. */
const resonanceTimes = (order: number): number => (order >= 4 ? 1.5 : order >= 2 ? 2 : 2.5);

export function safeHighPass({ driver, driven, ampVrms, edge }: DriverInSystem): SafeHighPass {
  const found = minHighPass(driven, ampVrms, edge, searchPoints);
  const strokeHz = found.ok ? found.value.highPassHz : ('none-helps' as const);
  const small = driver.kind === 'tweeter' || driver.kind === 'mid';
  const times = resonanceTimes(edge.order);
  const resonanceHz = small && driver.fsHz !== undefined ? times * driver.fsHz : null;
  const makerHz = driver.minimumHighPassHz ?? null;
  const most = Math.max(typeof strokeHz === 'number' ? strokeHz : 0, resonanceHz ?? 0, makerHz ?? 0);
  const safeHz = strokeHz === 'none-helps' || most === 0 ? null : Math.ceil(most);
  return { strokeHz, resonanceHz, resonanceTimes: times, makerHz, safeHz };
}

/** Corners worth a row: around what is planned and what is safe, in steps that are round. */
export function cornersFor(highPassHz: number | null, safeHz: number | null): (number | null)[] {
  const from = highPassHz ?? safeHz ?? 80;
  const round = (hz: number) => {
    const step = 10 ** Math.floor(Math.log10(hz)) / (hz < 3 * 10 ** Math.floor(Math.log10(hz)) ? 20 : 10);
    return Math.max(10, Math.round(hz / step) * step);
  };
  const around = [0.7, 0.85, 1.2, 1.45].map((factor) => round(from * factor));
  const all = new Set([...around, ...(highPassHz === null ? [] : [highPassHz]), ...(safeHz === null ? [] : [safeHz])]);
  const sorted = [...all].sort((a, b) => a - b);
  return highPassHz === null ? [null, ...sorted] : sorted;
}

export interface SheetRow {
  name: string;
  given: string;
  field: keyof Datasheet;
  says: number;
  follows: number;
  unit: string;
  /** Percent, and dB for the level. */
  off: number;
  broken: boolean;
}

const sheetNames: Record<string, { field: keyof Datasheet; name: string; unit: string }> = {
  Qts: { field: 'qts', name: 'Total Q', unit: '' },
  Fs: { field: 'fsHz', name: 'Resonance', unit: 'Hz' },
  Vas: { field: 'vasL', name: 'Equivalent air, Vas', unit: 'L' },
  Bl: { field: 'blTm', name: 'Force factor, Bl', unit: 'T m' },
  Sens: { field: 'spl1w1mDb', name: 'Level, 1 W at 1 m', unit: 'dB' },
};

export interface SheetCheck {
  rows: SheetRow[];
  /** Values one of which, alone, is wrong. */
  suspects: SheetValue[];
  /** What would make it agree; null where it agrees, or that cannot be told. */
  proposal: SheetProposal | null;
}

/** The sheet held against itself; null where it has too little for that. */
export function sheetCheck(driver: Driver): SheetCheck | null {
  const sheet = sheetOf(driver);
  const check = checkDatasheet(sheet);
  if (check === null) return null;
  const rows = Object.entries(check.residuals).map(([relation, off]): SheetRow => {
    const { field, name, unit } = sheetNames[relation];
    const says = sheet[field] as number;
    const follows = relation === 'Sens' ? says - off : says / (1 + off / 100);
    return { name, given: relation, field, says, follows, unit, off, broken: check.broken.includes(relation) };
  });
  const proposal = sheetProposal(sheet);
  return { rows, suspects: check.suspects, proposal };
}

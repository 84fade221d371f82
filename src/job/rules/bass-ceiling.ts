// How loud the bass of the plan can be in the cabin, and what ends it.
import { cabinGain, usualCabins } from '../../drivers/cabin.ts';
import { channelLevelDb, type Limit, toneCeiling } from '../../drivers/limits.ts';
import type { PartOf } from '../../plan/plan.ts';
import { forecastOf } from './driver-limits.ts';
import type { Lane, PlanView } from './plan-view.ts';

/** Where a level that is asked for is looked at. */
const bassHz = [30, 50, 80] as const;

/** The usual cabin of a body; what is open to the sky, and what nobody knows, has none. */
const cabins: Record<string, keyof typeof usualCabins> = {
  hatchback: 'hatchback',
  coupe: 'saloon',
  sedan: 'saloon',
  estate: 'estate',
  wagon: 'estate',
  van: 'van',
  pickup: 'truck-cab',
};

/** What the plan says of the cabin, and for the rest what its body usually has; a body that is not known is a saloon. */
function cabinOf({ plan, body = '' }: PlanView): { volumeM3: number; leakHz: number; fullness: number } | undefined {
  const vehicle = plan.vehicle.at(0);
  const usual = Object.hasOwn(cabins, body) ? usualCabins[cabins[body]] : undefined;
  const volumeM3 = vehicle?.cabinVolumeM3 ?? usual?.volumeM3;
  if (volumeM3 === undefined) return undefined;
  const { leakHz, fullness } = usual ?? usualCabins.saloon;
  return { volumeM3, leakHz: vehicle?.cabinLeakHz ?? leakHz, fullness: vehicle?.cabinFullness ?? fullness };
}

export interface BassCeiling {
  fHz: number;
  /** In the cabin, SPL. */
  levelDb: number;
  /** Of the driver that gives most at this frequency; where its crossover keeps it from more, that is `amplifier`. */
  limit: Limit;
  driver: string;
  /** What crossover and equaliser make of it here, dB. */
  crossoverDb: number;
}

export interface BassCeilings {
  points: BassCeiling[];
  /** What keeps a driver from being counted: with it there may be more level. */
  needs?: string;
}

/** All that plays down there. */
export const isBass = ({ kind }: PartOf<'driver'>) => kind === 'sub' || kind === 'midbass' || kind === 'full-range';

type Player = { driver: string; points: ReturnType<typeof toneCeiling>; crossoverDb: number[] };

function player(view: PlanView, lane: Lane, driver: PartOf<'driver'>): Player | { needs: string } {
  const forecast = forecastOf(view, lane, driver);
  if ('needs' in forecast) return { needs: `of ${driver.id} ${forecast.needs}` };
  if (driver.thermalW === undefined) return { needs: `the power that ${driver.id} stands` };
  const { driven, ampVrms } = forecast;
  const points = toneCeiling(driven, { thermalW: driver.thermalW, duty: 1, ampVrms }, bassHz);
  const crossoverDb = bassHz.map((fHz) => channelLevelDb(driven, fHz));
  return { driver: driver.id, points, crossoverDb };
}

function found(view: PlanView): BassCeilings {
  const cabin = cabinOf(view);
  if (cabin === undefined) return { points: [], needs: 'the volume of the cabin' };
  const all = view.lanes.flatMap((lane) => lane.drivers.filter(isBass).map((driver) => player(view, lane, driver)));
  const players = all.flatMap((one) => ('needs' in one ? [] : [one]));
  const needs = all.find((one) => 'needs' in one)?.needs ?? (all.length === 0 ? 'what plays the bass' : undefined);
  const points = bassHz.flatMap((fHz, n): BassCeiling[] => {
    if (players.length === 0) return [];
    const loudest = players.reduce((most, one) => (one.points[n].splDb > most.points[n].splDb ? one : most));
    const pressure = players.reduce((sum, one) => sum + 10 ** (one.points[n].splDb / 20), 0);
    const { gainDb } = cabinGain(cabin.volumeM3, fHz, cabin.leakHz, cabin.fullness, 1);
    const { driver, crossoverDb } = loudest;
    const levelDb = 20 * Math.log10(pressure) + gainDb;
    return [{ fHz, levelDb, limit: loudest.points[n].limit, driver, crossoverDb: crossoverDb[n] }];
  });
  return needs === undefined ? { points } : { points, needs };
}

const known = new WeakMap<PlanView, BassCeilings>();

/**
 * The loudest tone at 30, 50 and 80 Hz in the closed cabin, dB SPL, all drivers of the bass in step and each at its own
 * ceiling; to about 4 dB, until a take replaces it.
 */
export function bassCeilings(view: PlanView): BassCeilings {
  const before = known.get(view);
  if (before !== undefined) return before;
  const ceilings = found(view);
  known.set(view, ceilings);
  return ceilings;
}

/** The highest level that a seat asks for, dB SPL; undefined where none does. */
export function levelAsked({ plan }: PlanView): number | undefined {
  const asked = plan.seat.flatMap(({ targetLevelDb }) => targetLevelDb ?? []);
  return asked.length === 0 ? undefined : Math.max(...asked);
}

// Does what a place gave look like one channel's filters through a driver of its kind?
import { dbFromPower } from '../../base/decibel.ts';
import { analogCrossoverResponse, type Crossover } from '../../signals/filters/crossover.ts';
import type { DriverKind } from './driver-kinds.ts';
import { POINTS_PER_OCTAVE } from './near-take.ts';

/** Both edges of a channel as planned; null: open. */
export interface PlannedBand {
  highPass: Crossover | null;
  lowPass: Crossover | null;
}

/** One frequency of a place. */
export interface BandPoint {
  fHz: number;
  levelDb: number;
  /** `own`: the driver dominates; `at-most`: the driver gives no more than this. */
  kind: 'own' | 'at-most';
}

export interface ChannelFit {
  /** How badly it fits, in units of -10 log10 of likelihood; 0 fits perfectly. */
  cost: number;
  /** Driver and level that fit best. */
  resonanceHz: number;
  upperHz: number;
  levelDb: number;
}

/** Bumps of cone and surround at a hand's breadth, dB. */
const SIGMA_DB = 3;
/** No point counts for more than this many times its sigma: a bump is not a filter. */
const MOST_SIGMAS = 4;
/** Points that tell something new, an octave. */
const INDEPENDENT_PER_OCTAVE = 2;
const RESONANCE_STEPS = 7;
const UPPER_STEPS = 5;

/** Level of a planned band at some frequencies, dB. */
export function plannedLevelDb({ highPass, lowPass }: PlannedBand, fHz: readonly number[]): Float64Array {
  const levels = new Float64Array(fHz.length);
  for (const [edge, pass] of [
    [highPass, 'high-pass'],
    [lowPass, 'low-pass'],
  ] as const) {
    if (!edge) continue;
    const { re, im } = analogCrossoverResponse(edge, pass, fHz);
    for (let k = 0; k < levels.length; k++) levels[k] += dbFromPower(Math.max(re[k] ** 2 + im[k] ** 2, 1e-20));
  }
  return levels;
}

/** Level of a driver: a second-order fall below its resonance and above its upper end, dB. */
export function driverLevelDb(fHz: number, resonanceHz: number, upperHz: number): number {
  return -dbFromPower(1 + (resonanceHz / fHz) ** 4) - dbFromPower(1 + (fHz / upperHz) ** 4);
}

function spread([from, to]: readonly [number, number], steps: number): number[] {
  return Array.from({ length: steps }, (_, i) => from * (to / from) ** (i / (steps - 1)));
}

/** The level that makes the capped deviations least: the middle of the differences, then a step towards their mean. */
function bestLevel(differences: number[]): number {
  const sorted = [...differences].sort((a, b) => a - b);
  let level = sorted[sorted.length >> 1] ?? 0;
  for (let round = 0; round < 3; round++) {
    const near = sorted.filter((value) => Math.abs(value - level) < 2 * SIGMA_DB);
    if (near.length > 0) level = near.reduce((sum, value) => sum + value, 0) / near.length;
  }
  return level;
}

/**
 * Fits channel and driver to a place.
 *
 * @param points  of one place, 12 an octave; at least one of them `own`
 * @returns the best of the drivers that the kind allows; null where no point tells
 * Source: own method: least capped squares, points of a sixth of an octave counted at a sixth of their number.
 */
export function channelFit(points: readonly BandPoint[], band: PlannedBand, kind: DriverKind): ChannelFit | null {
  if (!points.some(({ kind: told }) => told === 'own')) return null;
  const planned = plannedLevelDb(
    band,
    points.map(({ fHz }) => fHz),
  );
  const share = INDEPENDENT_PER_OCTAVE / POINTS_PER_OCTAVE;
  let best: ChannelFit | null = null;
  for (const resonanceHz of spread(kind.resonanceHz, RESONANCE_STEPS)) {
    for (const upperHz of spread(kind.upperHz, UPPER_STEPS)) {
      const shape = points.map(({ fHz }, k) => planned[k] + driverLevelDb(fHz, resonanceHz, upperHz));
      const levelDb = bestLevel(
        points.flatMap(({ levelDb: level, kind: told }, k) => (told === 'own' ? [level - shape[k]] : [])),
      );
      let cost = 0;
      points.forEach(({ levelDb: level, kind: told }, k) => {
        const over = shape[k] + levelDb - level;
        if (told === 'at-most' && over < 0) return;
        cost += 2.17 * share * Math.min(MOST_SIGMAS, Math.abs(over) / SIGMA_DB) ** 2;
      });
      if (!best || cost < best.cost) best = { cost, resonanceHz, upperHz, levelDb };
    }
  }
  return best;
}

// What one place gave, taken for one channel after the other.

import { analogCrossoverResponse, type Crossover, type PassKind } from '../../signals/filters/crossover.ts';
import { type BandPoint, type ChannelFit, driverLevelDb, type PlannedBand, plannedLevelDb } from './channel-fit.ts';
import type { DriverKind } from './driver-kinds.ts';
import type { OneSide } from './near-take.ts';
import type { PlaceSpectra } from './neighbours.ts';

/** The driver itself stands this far over its neighbours' share where its level is believed, power ratio (6 dB). */
const OWN_RATIO = 4;
/** A gap in the own band this narrow does not end it, points of a twelfth of an octave. */
const WIDEST_GAP = 4;
/** Points this far under the loudest are not the driver's band, dB. */
const FAINTEST_OWN_DB = 24;

/** The unbroken stretch of own points that stands out most, as indices; null where there is none. */
function ownStretch(points: readonly BandPoint[]): { from: number; to: number } | null {
  const loudest = Math.max(...points.map(({ kind, levelDb }) => (kind === 'own' ? levelDb : -400)));
  let best: { from: number; to: number; weight: number } | null = null;
  let run: { from: number; to: number; weight: number } | null = null;
  points.forEach(({ kind, levelDb }, k) => {
    const over = levelDb - loudest + FAINTEST_OWN_DB;
    if (kind !== 'own' || over <= 0) return;
    run =
      run && k - run.to <= WIDEST_GAP ? { ...run, to: k, weight: run.weight + over } : { from: k, to: k, weight: over };
    if (!best || run.weight > best.weight) best = run;
  });
  return best;
}

/** The place's own band: what the points say of its driver, and between which frequencies it dominates. */
export interface OwnBand {
  points: BandPoint[];
  /** Null where it dominates nowhere. */
  rangeHz: { low: number; high: number } | null;
}

/**
 * Every frequency of a side as far as it tells about the place's own driver.
 *
 * @param reachHz   what the driver can play at all
 * @param ownRatio  over its neighbours' share, from which a point counts as its own, power ratio
 */
export function ownBand(
  { fHz, signal, noise, others }: PlaceSpectra,
  side: OneSide,
  reachHz: readonly [number, number],
  ownRatio: number = OWN_RATIO,
): OwnBand {
  const points = fHz.flatMap((f, k): BandPoint[] => {
    if (f < reachHz[0] || f > reachHz[1]) return [];
    const power = signal[side][k];
    const own = power > 0 && power > (1 + ownRatio) * others[side][k];
    if (own) return [{ fHz: f, levelDb: 10 * Math.log10(power - others[side][k]), kind: 'own' }];
    return [{ fHz: f, levelDb: 10 * Math.log10(Math.max(power, 3 * noise[side][k], 1e-20)), kind: 'at-most' }];
  });
  const stretch = ownStretch(points);
  // Single points that stand out elsewhere are rather the room's than the driver's.
  const judged = points.map(
    (point, k): BandPoint => (stretch && k >= stretch.from && k <= stretch.to ? point : { ...point, kind: 'at-most' }),
  );
  return { points: judged, rangeHz: stretch && { low: points[stretch.from].fHz, high: points[stretch.to].fHz } };
}

/** Where a driver of this kind may be heard at all, Hz. */
export const reachOf = ({ resonanceHz, upperHz }: DriverKind): [number, number] => [
  0.6 * resonanceHz[0],
  1.6 * upperHz[1],
];

/** Shape of channel and driver as they were fitted, dB. */
export function shapeOf(band: PlannedBand, fit: ChannelFit): (fHz: number) => number {
  return (fHz) =>
    plannedLevelDb(band, [Math.max(fHz, 1)])[0] + driverLevelDb(Math.max(fHz, 1), fit.resonanceHz, fit.upperHz);
}

/** Phase of channel and driver as they were fitted, radians: filters as planned, the driver of second order at either end. */
export function phaseOf({ highPass, lowPass }: PlannedBand, fit: ChannelFit): (fHz: number) => number {
  const driver: [Crossover, PassKind][] = [
    [{ family: 'butterworth', order: 2, fHz: fit.resonanceHz }, 'high-pass'],
    [{ family: 'butterworth', order: 2, fHz: fit.upperHz }, 'low-pass'],
  ];
  const all: [Crossover, PassKind][] = [
    ...(highPass ? [[highPass, 'high-pass'] as [Crossover, PassKind]] : []),
    ...(lowPass ? [[lowPass, 'low-pass'] as [Crossover, PassKind]] : []),
    ...driver,
  ];
  return (fHz) =>
    all.reduce((sum, [edge, pass]) => {
      const { re, im } = analogCrossoverResponse(edge, pass, [fHz]);
      return sum + Math.atan2(im[0], re[0]);
    }, 0);
}

/** Frequencies that a channel sends to a driver of this kind and that it can play, Hz; null where there are none. */
export function playableHz(
  { highPass, lowPass }: PlannedBand,
  { resonanceHz, upperHz }: DriverKind,
  range: { low: number; high: number },
): { low: number; high: number } | null {
  const low = Math.max(range.low, (highPass?.fHz ?? 0) * 1.06, resonanceHz[0]);
  const high = Math.min(range.high, (lowPass?.fHz ?? Number.POSITIVE_INFINITY) / 1.06, upperHz[1]);
  return high > 1.3 * low ? { low, high } : null;
}

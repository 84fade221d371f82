// What a closed cabin does below its first standing wave, and room for a cone.
import { airStiffnessPa, soundMPerS, zeroDbPa } from './air.ts';

/**
 * Gain of a cabin against half space at `refM`; to about 4 dB, until a take replaces it.
 *
 * @param volumeM3 above 0
 * @param leakHz   where leaks take over, 0 or more
 * @param fullness how much of the gain the body leaves, to 1
 * Source: pressure of a small cavity (rho c^2 times swept volume over V) over that of a source in half space.
 */
export function cabinGain(volumeM3: number, fHz: number, leakHz: number, fullness: number, refM: number) {
  const cornerHz = (soundMPerS / (2 * Math.PI)) * Math.sqrt((2 * Math.PI * refM) / volumeM3);
  const gainDb = (fullness * 10 * Math.log1p((cornerHz / fHz) ** 4 / (1 + (leakHz / fHz) ** 2))) / Math.LN10;
  return { cornerHz, gainDb };
}

/**
 * Cabins as they usually are: middles of what bodies of a kind have. An assumption, good to about 4 dB.
 *
 * A saloon hears its boot through the seats; a truck's is the cab alone.
 */
export const usualCabins = {
  hatchback: { volumeM3: 2.5, leakHz: 5, fullness: 0.8 },
  saloon: { volumeM3: 2.9, leakHz: 10, fullness: 0.6 },
  estate: { volumeM3: 4.2, leakHz: 8, fullness: 0.8 },
  van: { volumeM3: 7, leakHz: 10, fullness: 0.6 },
  'truck-cab': { volumeM3: 5, leakHz: 10, fullness: 0.6 },
} as const;

/** Level, dB, of a cone that sweeps `sdM2` by `xPeakM` in a tight cavity. Source: adiabatic compression of air. */
export function cavityLevelDb(sdM2: number, xPeakM: number, volumeM3: number): number {
  return 20 * Math.log10((airStiffnessPa * sdM2 * xPeakM) / Math.SQRT2 / volumeM3 / zeroDbPa);
}

/**
 * Gap before a cone that fires down: `stop` where the cone can strike, `fix` below 10 mm past its stroke or where the gap's
 * edge is less than the cone's area.
 *
 * Source: geometry, pi D h against pi D^2 / 4.
 */
export function clearance(coneDiameterMm: number, xmechMm: number, gapMm: number) {
  const areaRatio = (4 * gapMm) / coneDiameterMm;
  const freeAfterStrokeMm = gapMm - xmechMm;
  const verdict = freeAfterStrokeMm <= 0 ? 'stop' : freeAfterStrokeMm < 10 || areaRatio < 1 ? 'fix' : 'ok';
  return { areaRatio, freeAfterStrokeMm, verdict };
}

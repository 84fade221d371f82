// How hot a coil gets, and how a meter tells.

/** Growth of copper's resistance per kelvin above 20 degrees. Source: IEC 60028. */
const copperPerK = 0.00393;

/** A rise, how much the coil's resistance grows, and what is lost at the same voltage, dB. */
const heated = (riseK: number) => {
  const reRatio = 1 + copperPerK * riseK;
  return { riseK, reRatio, midbandLossDb: 20 * Math.log10(reRatio) };
};

/**
 * Rise of a coil under steady power: coil and magnet warm each with its own time. What each kind of driver stands is in `usualCoils`.
 *
 * @param heatW, seconds 0 or more; times and K/W above 0
 * Source: C. A. Henricksen, J. Audio Eng. Soc. 35(10), 1987 (two-stage thermal circuit).
 */
export function coilHeat(given: {
  heatW: number;
  seconds: number;
  tauCoilS: number;
  tauMagnetS: number;
  rCoilKPerW: number;
  rMagnetKPerW: number;
}) {
  const { heatW, seconds, tauCoilS, tauMagnetS, rCoilKPerW, rMagnetKPerW } = given;
  const share = (tauS: number) => -Math.expm1(-seconds / tauS);
  return heated(heatW * (rCoilKPerW * share(tauCoilS) + rMagnetKPerW * share(tauMagnetS)));
}

/** A kind of driver as heat sees it: middles of what is usual, and the rise that its coil stands. */
export const usualCoils = {
  tweeter: { tauCoilS: 2, rCoilKPerW: 15, tauMagnetS: 390, rMagnetKPerW: 7.5, riseMaxK: 100 },
  mid: { tauCoilS: 5.5, rCoilKPerW: 6, tauMagnetS: 600, rMagnetKPerW: 3.5, riseMaxK: 130 },
  midbass: { tauCoilS: 10, rCoilKPerW: 3, tauMagnetS: 1200, rMagnetKPerW: 1.5, riseMaxK: 150 },
  sub: { tauCoilS: 25, rCoilKPerW: 1.1, tauMagnetS: 2400, rMagnetKPerW: 0.7, riseMaxK: 180 },
} as const;

export type UsualCoil = keyof typeof usualCoils;

/** How long a coil takes to be cool enough for the next test, in its own times. */
const COOL_AFTER = 3;

/**
 * Rise of a usual coil of its kind under steady power, whether it stands that, and the pause before the next test.
 *
 * @param heatW, seconds 0 or more
 * Source: as `coilHeat`; the figures of each kind are an assumption, middles of ranges that reach from half to twice.
 */
export function usualCoilHeat(kind: UsualCoil, heatW: number, seconds: number) {
  const { riseMaxK, ...coil } = usualCoils[kind];
  const found = coilHeat({ heatW, seconds, ...coil });
  return { ...found, riseMaxK, pauseS: COOL_AFTER * coil.tauCoilS, verdict: found.riseK > riseMaxK ? 'stop' : 'ok' };
}

/** Rise of a coil, K, between two readings in ohm, `hotOhm` not below `coldOhm`. */
export const riseFromDcr = (coldOhm: number, hotOhm: number) => heated((hotOhm / coldOhm - 1) / copperPerK);

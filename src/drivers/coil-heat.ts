// How hot a coil gets, and how a meter tells.

/** Growth of copper's resistance per kelvin above 20 degrees. Source: IEC 60028. */
const copperPerK = 0.00393;

/** A rise, how much the coil's resistance grows, and what is lost at the same voltage, dB. */
const heated = (riseK: number) => {
  const reRatio = 1 + copperPerK * riseK;
  return { riseK, reRatio, midbandLossDb: 20 * Math.log10(reRatio) };
};

/**
 * Rise of a coil under steady power: coil and magnet warm each with its own time. A tweeter stands 100 to 150 K.
 *
 * @param heatW, seconds 0 or more; times and K/W above 0
 * Source: C. A. Henricksen, J. Audio Eng. Soc. 35(10), 1987, 777-791 (two-stage thermal circuit).
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

/** Rise of a coil, K, between two readings in ohm, `hotOhm` not below `coldOhm`. */
export const riseFromDcr = (coldOhm: number, hotOhm: number) => heated((hotOhm / coldOhm - 1) / copperPerK);

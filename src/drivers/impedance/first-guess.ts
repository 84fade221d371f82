// First guess of an impedance curve's six numbers, from its own features.
import { type Complex, FIT_UP_TO, type ImpedanceModel, sizeOf } from './impedance-model.ts';
import type { Resonance } from './resonances.ts';

/** Near enough for a fit to find its way from. */
export function firstGuess(fHz: readonly number[], z: readonly Complex[], top: Resonance): ImpedanceModel {
  const near = z.filter((_, n) => fHz[n] > top.fHz / 8 && fHz[n] < FIT_UP_TO * top.fHz);
  const reOhm = Math.min(...near.map(sizeOf));
  const half = Math.sqrt(reOhm * top.ohm);
  const at = fHz.findIndex((f) => f >= top.fHz);
  let [low, high] = [at, at];
  while (low > 0 && sizeOf(z[low]) > half) low--;
  while (high < z.length - 1 && sizeOf(z[high]) > half) high++;
  const qms = (top.fHz * Math.sqrt(top.ohm / reOhm)) / Math.max(fHz[high] - fHz[low], 0.02 * top.fHz);
  // The coil by what it does where it does most.
  const highest = fHz.findLastIndex((f) => f < FIT_UP_TO * top.fHz);
  const semiN = 0.8;
  const coilOhm = Math.max(Math.abs(z[highest].im), 0.01 * reOhm) / Math.sin((semiN * Math.PI) / 2);
  const semiK = coilOhm / (2 * Math.PI * fHz[highest]) ** semiN;
  return { reOhm, fsHz: top.fHz, qms, peakOhm: Math.max(top.ohm - reOhm, 0.1 * reOhm), semiK, semiN };
}

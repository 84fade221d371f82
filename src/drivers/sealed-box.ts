// A closed box: resonance, Q, corner, and the volume for a wanted Q.
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';
import { type Driver, deriveDriver, sourceQ } from './driver.ts';

export interface SealedBox {
  /** Stiffness of the air against that of the suspension. */
  alpha: number;
  fcHz: number;
  qtc: number;
  /** Half power. */
  f3Hz: number;
  peakDb: number;
}

/**
 * A driver in a closed box.
 *
 * @param vbM3 net, above 0; `fillGain` 1 for no fill; `sourceOhm` 0 or more
 * Source: R. H. Small, J. Audio Eng. Soc. 20(10), 1972, 798-808.
 */
export function sealedBox(driver: Driver, vbM3: number, fillGain: number, sourceOhm: number): SealedBox {
  const alpha = deriveDriver(driver).vasM3 / (vbM3 * fillGain);
  const rise = Math.sqrt(1 + alpha);
  const fcHz = driver.fsHz * rise;
  const qtc = sourceQ(driver, sourceOhm).qts * rise;
  const a = 1 / qtc ** 2 - 2;
  // The same root written so that a large negative `a` does not cancel.
  const root = Math.sqrt(a * a + 4);
  const square = a >= 0 ? (a + root) / 2 : 2 / (root - a);
  const peakDb = qtc > Math.SQRT1_2 ? 20 * Math.log10(qtc ** 2 / Math.sqrt(qtc ** 2 - 0.25)) : 0;
  return { alpha, fcHz, qtc, f3Hz: fcHz * Math.sqrt(square), peakDb };
}

/**
 * Net volume, m3, of a closed box for a wanted Q; refused as `no-solution` at or below the Q of the driver.
 *
 * Source: as `sealedBox`.
 */
export function sealedVolume(driver: Driver, qtc: number, fillGain: number, sourceOhm: number): Result<number> {
  const { qts } = sourceQ(driver, sourceOhm);
  if (qtc > qts) return success(deriveDriver(driver).vasM3 / ((qtc / qts) ** 2 - 1) / fillGain);
  const message = `A closed box only raises Q, and the driver alone has ${qts.toPrecision(3)}.`;
  return refused('no-solution', 'qtc', message, `Wish for a qtc above ${qts.toPrecision(3)}.`);
}

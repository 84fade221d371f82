// How much air a port must carry.
import type { Box } from './box.ts';
import type { Driver } from './driver.ts';
import { logSpaced } from './limits.ts';
import { driverMotion } from './motion.ts';

/**
 * Largest flow through the port over a band, peak, m3/s per volt RMS, and where it is. Divided by a speed it is the area
 * that keeps the air under that speed: 17 m/s is quiet, 25 usual, above 30 noise and compression.
 *
 * @param band  `fromHz` below `toHz`
 * Source: continuity, v = U / S; speeds are trade practice, about 5 % of the speed of sound for quiet.
 */
export function largestPortFlow(
  driver: Driver,
  box: Box,
  sourceOhm: number,
  band: { fromHz: number; toHz: number },
): { flowM3PerS: number; atHz: number } {
  const motion = driverMotion(driver, box, sourceOhm);
  let [flowM3PerS, atHz] = [0, band.fromHz];
  for (const fHz of logSpaced(band.fromHz, band.toHz)) {
    const flow = Math.SQRT2 * motion(fHz).portFlowM3PerS;
    if (flow <= flowM3PerS) continue;
    [flowM3PerS, atHz] = [flow, fHz];
  }
  return { flowM3PerS, atHz };
}

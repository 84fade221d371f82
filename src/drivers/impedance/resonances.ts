// Where an impedance curve has its resonances.
import { type Complex, sizeOf } from './impedance-model.ts';

/** In points of the grid. */
const HALF_OCTAVE = 24;

export interface Resonance {
  fHz: number;
  /** The top of the peak. */
  ohm: number;
}

/**
 * The top of each resonance: where the impedance turns from inductive to capacitive, and the divider passes on more than
 * half an octave to either side, which no delay between two takes can feign.
 */
export function resonances(fHz: readonly number[], z: readonly Complex[], passed: readonly number[]): Resonance[] {
  const found: Resonance[] = [];
  // A window of a sixth of an octave each side: noise turns the phase, a resonance turns it for good.
  const width = 8;
  for (let n = width; n < z.length - width; n++) {
    if (!(z[n - 1].im >= 0 && z[n].im < 0)) continue;
    const [before, after] = [z.slice(n - width, n), z.slice(n, n + width)];
    const rises = before.filter(({ im }) => im > 0).length > width / 2;
    const falls = after.filter(({ im }) => im < 0).length > width / 2;
    const ohm = Math.max(...before.map(sizeOf), ...after.map(sizeOf));
    const peak = passed[n] > 1.02 * (passed[n - HALF_OCTAVE] ?? 0) && passed[n] > 1.02 * (passed[n + HALF_OCTAVE] ?? 0);
    if (rises && falls && peak && !found.some((known) => Math.abs(Math.log2(fHz[n] / known.fHz)) < 0.25)) {
      found.push({ fHz: fHz[n], ohm });
    }
  }
  return found;
}

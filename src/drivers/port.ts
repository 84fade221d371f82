// The port of a vented box: how long it must be, and what tuning a built one gives.
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';
import { soundMPerS } from './air.ts';

/** Length that the moving air adds, in radii of one port, by what its ends open into. */
export const portEnds = {
  'one-flanged': 1.463,
  'both-flanged': 1.7,
  'both-free': 1.226,
  /** A slot with a wall of the box for one side: the wall mirrors it. Prove the tuning by impedance. */
  'along-wall': 2.2,
} as const;

export type PortEnds = keyof typeof portEnds;

/** Alike ports in parallel; areas above 0. */
export interface Ports {
  count: number;
  /** Of one port. */
  areaM2: number;
  ends: PortEnds;
}

const endLengthM = ({ areaM2, ends }: Ports) => portEnds[ends] * Math.sqrt(areaM2 / Math.PI);

/**
 * Length of each port for a tuning.
 *
 * @param vbM3  net volume of the box, above 0
 * @returns length, m; the air that all ports hold, m3; the first resonance of the pipe, Hz, which belongs above the pass
 *   band. `no-solution` where the ends alone are too long
 * Source: H. L. F. von Helmholtz, 1860; A. N. Thiele, J. Audio Eng. Soc. 19(5), 1971; end corrections: L. L. Beranek,
 *   Acoustics, 1954, chapter 5.
 */
export function portLength(
  vbM3: number,
  fbHz: number,
  ports: Ports,
): Result<{ lengthM: number; volumeM3: number; firstPipeResonanceHz: number }> {
  const { count, areaM2 } = ports;
  const wholeM = (count * areaM2 * soundMPerS ** 2) / ((2 * Math.PI * fbHz) ** 2 * vbM3);
  const lengthM = wholeM - endLengthM(ports);
  if (!(lengthM > 0)) {
    const message = `No port of ${(1e4 * areaM2).toFixed(1)} cm2 is short enough for ${fbHz} Hz in this box.`;
    return refused('no-solution', 'portAreaCm2', message, 'Give a larger area or a lower tuning.');
  }
  return success({ lengthM, volumeM3: count * areaM2 * lengthM, firstPipeResonanceHz: soundMPerS / (2 * wholeM) });
}

/**
 * Tuning of a box with built ports, Hz.
 *
 * @param lengthM  of each port, above 0
 * Source: as `portLength`.
 */
export function portTuning(vbM3: number, lengthM: number, ports: Ports): number {
  const wholeM = lengthM + endLengthM(ports);
  return (soundMPerS / (2 * Math.PI)) * Math.sqrt((ports.count * ports.areaM2) / (vbM3 * wholeM));
}

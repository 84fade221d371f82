// What stands behind a cone, as air that gives way.
import { airStiffnessPa } from './air.ts';

/** An enclosure; volumes net in m3, all above 0. `fillGain` is how much larger damping fill makes the air, 1 for none. */
export type Box =
  /** A door, a rear shelf: the air behind does not push back. */
  | { kind: 'infinite-baffle' }
  /** `leak` when it is not tight: losses `ql` at `fbHz`. */
  | { kind: 'sealed'; vbM3: number; fillGain: number; leak?: { ql: number; fbHz: number } }
  /** `portAreaM2` of all ports together, where it is known. */
  | { kind: 'vented'; vbM3: number; fillGain: number; fbHz: number; ql: number; portAreaM2?: number }
  /** Sealed `vrM3` behind the cone, `vbM3` with the port before it: only the port is heard. */
  | { kind: 'bandpass4'; vrM3: number; vbM3: number; fillGain: number; fbHz: number; ql: number; portAreaM2?: number };

/** Losses of a usual box: 5 leaky, 15 tight. */
export const qlDefault = 7;

/** A box in acoustic units. */
export interface BoxCircuit {
  /** Air of the box that breathes, m3/Pa; 0 without a box. */
  airM3PerPa: number;
  /** Leak, m3/(s Pa); 0 when tight. */
  leak: number;
  /** 1 / mass of the port's air, 0 without a port. */
  portPerMass: number;
  /** 1 / air of a sealed chamber on the other side of the cone; 0 without one. */
  rearPaPerM3: number;
}

/** The box as an acoustic circuit. Source: R. H. Small, J. Audio Eng. Soc. 21, 1973, 363-372; 438-444; 549-554. */
export function boxCircuit(box: Box): BoxCircuit {
  if (box.kind === 'infinite-baffle') return { airM3PerPa: 0, leak: 0, portPerMass: 0, rearPaPerM3: 0 };
  const airM3PerPa = (box.vbM3 * box.fillGain) / airStiffnessPa;
  if (box.kind === 'sealed') {
    const { leak } = box;
    const flow = leak === undefined ? 0 : (2 * Math.PI * leak.fbHz * airM3PerPa) / leak.ql;
    return { airM3PerPa, leak: flow, portPerMass: 0, rearPaPerM3: 0 };
  }
  const wb = 2 * Math.PI * box.fbHz;
  const rearPaPerM3 = box.kind === 'bandpass4' ? airStiffnessPa / (box.vrM3 * box.fillGain) : 0;
  return { airM3PerPa, leak: (wb * airM3PerPa) / box.ql, portPerMass: wb * wb * airM3PerPa, rearPaPerM3 };
}

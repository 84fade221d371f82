// Plausible drivers by kind, drawn from a seed: numbers as sheets of small, middling and large car drivers give them.
import type { PlaceKind } from './car.ts';
import type { Chance } from './chance.ts';
import { driverFromSheet, type SimulatedDriver, type StrokeLaw } from './driver.ts';

/**
 * Bl falls to about 80 % and stiffness rises by a third or so at xMax: the point up to which a maker calls the stroke
 * linear (W. Klippel 2006). The tilts are an off-centre coil and a spider that pulls harder one way.
 */
function strokeLaw(chance: Chance): StrokeLaw {
  return {
    blTilt: chance.between(-0.06, 0.06),
    blFall2: chance.between(0.1, 0.2),
    blFall4: chance.between(0.03, 0.1),
    kTilt: chance.between(-0.12, 0.12),
    kRise2: chance.between(0.15, 0.35),
    kRise4: chance.between(0.05, 0.15),
    leTilt: chance.between(-0.2, -0.05),
  };
}

function bumps(chance: Chance, count: number, fromHz: number, toHz: number): SimulatedDriver['bumps'] {
  return Array.from({ length: count }, () => ({
    fHz: fromHz * (toHz / fromHz) ** chance.between(0, 1),
    q: chance.between(1.5, 5),
    gainDb: chance.between(-4, 4),
  }));
}

/** Middle values of a kind; each draw moves them. */
const MIDDLE = {
  tweeter: { fs: 1100, qts: 0.75, qms: 3, re: 3.4, le: 3e-5, mms: 3.5e-4, sd: 6e-4, xMax: 3.5e-4, breakup: 24_000 },
  mid: { fs: 140, qts: 0.65, qms: 4, re: 3.3, le: 1.2e-4, mms: 3.2e-3, sd: 3.2e-3, xMax: 2e-3, breakup: 9000 },
  midbass: { fs: 64, qts: 0.65, qms: 5, re: 3.2, le: 4e-4, mms: 1.6e-2, sd: 1.35e-2, xMax: 4.5e-3, breakup: 4000 },
  sub: { fs: 45, qts: 0.75, qms: 6, re: 3.4, le: 1.6e-3, mms: 0.16, sd: 3.6e-2, xMax: 1.1e-2, breakup: 700 },
} as const satisfies Record<PlaceKind, object>;

/** One driver of a kind; both of a pair come from the same stream and differ only by `pairSpread`. */
export function driverOfKind(kind: PlaceKind, pair: Chance, own: Chance): SimulatedDriver {
  const middle = MIDDLE[kind];
  const about = (value: number, share: number): number =>
    value * (1 + pair.between(-share, share)) * (1 + own.between(-0.03, 0.03));
  const breakupHz = Math.min(about(middle.breakup, 0.2), 26_000);
  return driverFromSheet(
    {
      resonanceHz: about(middle.fs, 0.2),
      totalQ: about(middle.qts, 0.3),
      mechanicalQ: about(middle.qms, 0.3),
      resistanceOhm: about(middle.re, 0.08),
      inductanceH: about(middle.le, 0.3),
      massKg: about(middle.mms, 0.2),
      coneAreaM2: about(middle.sd, 0.1),
      xMaxM: about(middle.xMax, 0.2),
    },
    {
      stroke: strokeLaw(own),
      breakupHz,
      breakupQ: pair.between(0.6, 1.3),
      bumps: kind === 'sub' ? [] : bumps(own, 3, breakupHz / 6, Math.min(breakupHz, 16_000)),
    },
  );
}

// What a path does to the phase beyond what its magnitude asks for: a delay, a turned sign, an all-pass.

/** Phase beyond the minimum phase, unwrapped, on any rising grid. */
export interface ExcessPhase {
  fHz: number[];
  rad: number[];
}

export interface AllPass {
  /** Where it turns half of what it turns, Hz. */
  fHz: number;
  /** 1 turns 180 degrees in all, 2 turns 360. */
  order: 1 | 2;
  /** Null of first order. */
  q: number | null;
}

export interface PhaseModel {
  delayS: number;
  /** Sign of the path below an all-pass. */
  sign: 1 | -1;
  allPass: AllPass | null;
  /** Root mean square of what stays unexplained. */
  residualDeg: number;
  /** The same without any all-pass. */
  plainResidualDeg: number;
}

const TRIED_PER_OCTAVE = 12;
const TRIED_Q = [0.5, 0.7, 1, 1.4, 2];
/** Phase that stays unexplained below this is the chance of a window and of a corner outside the band. */
const EXPLAINED_DEG = 12;
/** An all-pass must explain at least this share of what a delay leaves. */
const WORTH = 0.5;

/** Phase of an all-pass, rad, falling from 0. */
function allPassRad({ fHz: f0, order, q }: AllPass, f: number): number {
  if (order === 1) return -2 * Math.atan(f / f0);
  return -2 * Math.atan2((f * f0) / (q ?? 1), f0 * f0 - f * f);
}

interface Fit {
  delayS: number;
  sign: 1 | -1;
  rms: number;
}

/** The best delay and sign for phases: a line through a multiple of half a turn. */
function lineThrough(fHz: readonly number[], rad: readonly number[]): Fit {
  const n = fHz.length;
  const meanF = fHz.reduce((sum, f) => sum + f, 0) / n;
  const meanRad = rad.reduce((sum, value) => sum + value, 0) / n;
  let square = 0;
  let cross = 0;
  let own = 0;
  let along = 0;
  for (let i = 0; i < n; i++) {
    square += (fHz[i] - meanF) ** 2;
    cross += (fHz[i] - meanF) * (rad[i] - meanRad);
    own += fHz[i] ** 2;
  }
  const start = meanRad - (cross / Math.max(square, 1e-12)) * meanF;
  const halfTurns = Math.round(start / Math.PI);
  for (let i = 0; i < n; i++) along += fHz[i] * (rad[i] - halfTurns * Math.PI);
  const slope = along / Math.max(own, 1e-12);
  let sum = 0;
  for (let i = 0; i < n; i++) sum += (rad[i] - halfTurns * Math.PI - slope * fHz[i]) ** 2;
  return { delayS: -slope / (2 * Math.PI), sign: halfTurns % 2 === 0 ? 1 : -1, rms: Math.sqrt(sum / n) };
}

/**
 * The delay, sign and all-pass that explain a path's excess phase best; no all-pass where a delay alone does.
 *
 * @param excess  at least 12 points over two octaves and more, or an all-pass cannot be told from a delay
 * @returns null where there are too few points
 * Source: an all-pass of first order turns by -2 atan(f / f0), one of second by twice the phase of its poles (A. V.
 *   Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, 3rd ed., 2010, section 5.5); the search is our own.
 */
export function phaseModel({ fHz, rad }: ExcessPhase): PhaseModel | null {
  if (fHz.length < 12 || fHz[fHz.length - 1] < 4 * fHz[0]) return null;
  const degrees = (value: number): number => (value * 180) / Math.PI;
  const plain = lineThrough(fHz, rad);
  const plainResidualDeg = degrees(plain.rms);
  const none = { ...plain, allPass: null, residualDeg: plainResidualDeg, plainResidualDeg };
  const told = ({ delayS, sign, allPass, residualDeg }: PhaseModel): PhaseModel => ({
    delayS,
    sign,
    allPass,
    residualDeg,
    plainResidualDeg,
  });
  if (plainResidualDeg <= EXPLAINED_DEG) return told(none);
  let best: { fit: Fit; allPass: AllPass } | null = null;
  const last = fHz[fHz.length - 1];
  for (let f0 = fHz[0]; f0 <= last; f0 *= 2 ** (1 / TRIED_PER_OCTAVE)) {
    const tried: AllPass[] = [
      { fHz: f0, order: 1, q: null },
      ...TRIED_Q.map((q): AllPass => ({ fHz: f0, order: 2, q })),
    ];
    for (const allPass of tried) {
      const fit = lineThrough(
        fHz,
        rad.map((value, i) => value - allPassRad(allPass, fHz[i])),
      );
      if (best === null || fit.rms < best.fit.rms) best = { fit, allPass };
    }
  }
  if (best === null || best.fit.rms > WORTH * plain.rms || degrees(best.fit.rms) > EXPLAINED_DEG) return told(none);
  return told({ ...best.fit, allPass: best.allPass, residualDeg: degrees(best.fit.rms), plainResidualDeg });
}

// Which wiring it really is, from what the ohmmeter reads.
import { calculation } from '../../base/calculation.ts';
import { list, number, optional, orElse, record, resistance, text } from '../../base/calculation-inputs.ts';
import { type Result, success } from '../../base/result.ts';
import {
  type CoilNetwork,
  type CoilOhms,
  coilsInput,
  coilsMissing,
  namedOnce,
  networkInput,
  networkOhm,
} from './coil-network.ts';

/** One way it could be wired; `override` says which coils are open (Infinity) or shorted (0) in it. */
export interface WiringHypothesis {
  name: string;
  network: CoilNetwork;
  override?: CoilOhms | undefined;
}

/** How far a reading may lie from a hypothesis: a share of its resistance and a fixed part, both 0 or more. */
export interface ReadingTolerance {
  relTol: number;
  absTol: number;
}

export const readingTolerance: ReadingTolerance = { relTol: 0.1, absTol: 0.2 };

export interface WiringMatches {
  /** Names of the hypotheses that fit, the nearest first, equals in the order given. */
  matches: string[];
  /** Their distances, 0 .. 1. */
  scores: number[];
  verdict: 'unique' | 'ambiguous' | 'none';
}

/** Distance in units of the tolerance; an open reading is at 0 from an open network and infinitely far from any other. */
function distance(readingOhm: number, ohm: number, leadOhm: number, { relTol, absTol }: ReadingTolerance): number {
  if (!Number.isFinite(readingOhm) || !Number.isFinite(ohm)) return readingOhm === ohm ? 0 : Number.POSITIVE_INFINITY;
  const off = Math.abs(readingOhm - (ohm + leadOhm));
  return off === 0 ? 0 : Math.round((off / (relTol * ohm + absTol)) * 1e9) / 1e9;
}

/**
 * The hypotheses that a reading fits: |reading - (R + lead)| / (relTol R + absTol) is 1 or less.
 *
 * Resistance cannot see polarity, nor leads of equal drivers swapped.
 *
 * @param read.readingOhm 0 or more, Infinity for open; @param read.leadOhm 0 or more
 * @param read.coils      resistance of each coil; @param read.hypotheses one or more, each with names found in the coils
 * Source: own method; tolerances for a plain multimeter and coils within 10 %.
 */
export function wiringFromReading(
  read: { readingOhm: number; leadOhm: number; coils: CoilOhms; hypotheses: readonly WiringHypothesis[] },
  tolerance: ReadingTolerance = readingTolerance,
): WiringMatches {
  const { readingOhm, leadOhm, coils, hypotheses } = read;
  const fitting = hypotheses
    .map(({ name, network, override }) => {
      const ohm = networkOhm(network, withOverride(coils, override));
      return { name, score: distance(readingOhm, ohm, leadOhm, tolerance) };
    })
    .filter(({ score }) => score <= 1)
    .sort((a, b) => a.score - b.score);
  return {
    matches: fitting.map(({ name }) => name),
    scores: fitting.map(({ score }) => score),
    verdict: fitting.length === 1 ? 'unique' : fitting.length === 0 ? 'none' : 'ambiguous',
  };
}

const withOverride = (coils: CoilOhms, override: CoilOhms | undefined): CoilOhms =>
  override === undefined ? coils : new Map([...coils, ...override]);

export const wiringFromReadingCalculation = calculation({
  name: 'wiringFromReading',
  about: 'which wiring a reading fits',
  caution: 'Amplifier unplugged; only a unique match that equals the plan closes the hold point.',
  inputs: {
    readingOhm: resistance({ min: 0 }),
    leadOhm: orElse(number('ohm', { min: 0 }), 0),
    coils: coilsInput,
    hypotheses: list(record({ name: text, network: networkInput, override: optional(coilsInput) })),
    relTol: orElse(number('', { min: 0 }), readingTolerance.relTol),
    absTol: orElse(number('ohm', { min: 0 }), readingTolerance.absTol),
  },
  alsoMissing: ({ coils, hypotheses }) =>
    hypotheses.flatMap(({ network, override }) =>
      network === undefined ? [] : coilsMissing(network, withOverride(coils, override)),
    ),
  answer({ relTol, absTol, ...read }): Result<WiringMatches> {
    for (const [index, { network }] of read.hypotheses.entries()) {
      const sound = namedOnce(network, `hypotheses[${index}].network`);
      if (!sound.ok) return sound;
    }
    return success(wiringFromReading(read, { relTol, absTol }));
  },
});

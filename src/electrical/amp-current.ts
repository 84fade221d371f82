// The current an amplifier draws, at full sine and in music, and the heat that stays in it.
import { calculation } from '../base/calculation.ts';
import { choice, number, optional } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';

/**
 * Efficiency at full sine power, internal supply included, and idle current in A per 100 W rated.
 *
 * An assumption: middles of what amplifiers of each class are known to reach. A maker's figure replaces it.
 */
export const amplifierClasses = {
  A: { efficiency: 0.25, idleAPer100W: 3, rootLaw: true },
  AB: { efficiency: 0.55, idleAPer100W: 0.5, rootLaw: true },
  G: { efficiency: 0.65, idleAPer100W: 0.4, rootLaw: false },
  H: { efficiency: 0.65, idleAPer100W: 0.4, rootLaw: false },
  D: { efficiency: 0.8, idleAPer100W: 0.25, rootLaw: false },
  'D-sub': { efficiency: 0.82, idleAPer100W: 0.15, rootLaw: false },
  'head-unit': { efficiency: 0.6, idleAPer100W: 0, rootLaw: true },
} as const;

export type AmplifierClass = keyof typeof amplifierClasses;

/** What each halving of the load costs in efficiency, and the most that is known of. */
const halvingCosts = 0.04;
const halvingsMax = 2;

/**
 * Efficiency of a class at a load: 4 points less at half the highest load that it is rated for, 8 at a quarter.
 *
 * An assumption, as the figures of the classes; a straight line between them. Above the highest load nothing is gained.
 *
 * @param loadOhm,highestOhm above 0
 * @example usualEfficiency('D', 2, 4) // 0.76
 */
export function usualEfficiency(kind: AmplifierClass, loadOhm: number, highestOhm: number): number {
  const halvings = Math.min(halvingsMax, Math.max(0, Math.log2(highestOhm / loadOhm)));
  return amplifierClasses[kind].efficiency - halvingCosts * halvings;
}

/** Crest factor of a sine, dB. */
const sineCrestDb = 3.0103;

/** Average power over that of a full-scale sine, for a programme of this crest factor (peak over RMS, dB) at clipping. */
export function dutyFromCrest(crestDb: number): number {
  return 10 ** ((sineCrestDb - crestDb) / 10);
}

export interface AmpCurrent {
  duty: number;
  sineA: number;
  musicA: number;
  heatAtSineW: number;
}

/**
 * Current from the supply: P / (efficiency V) + idle at full sine; in music the signal part times the duty (classes D, G,
 * H: losses scale with output) or times its root (A, AB: the current follows the output current, not the power).
 *
 * Above duty 1 the amplifier clips, and only the linear law holds.
 *
 * @param amp.ratedW     above 0: all channels at the loads that are connected
 * @param amp.efficiency above 0, to 0.98
 * @param amp.supplyV    above 0
 * @param amp.idleA      0 or more
 * @param amp.duty       0 or more; see `dutyFromCrest`
 * Source: derivation above.
 * @example ampCurrent({ class: 'D', ratedW: 500, efficiency: 0.8, supplyV: 14.4, idleA: 1, duty: 0.2 }).musicA // 9.68
 */
export function ampCurrent(amp: {
  class: AmplifierClass;
  ratedW: number;
  efficiency: number;
  supplyV: number;
  idleA: number;
  duty: number;
}): AmpCurrent {
  const { ratedW, efficiency, supplyV, idleA, duty } = amp;
  const fullA = ratedW / (efficiency * supplyV);
  const share = amplifierClasses[amp.class].rootLaw && duty < 1 ? Math.sqrt(duty) : duty;
  return {
    duty,
    sineA: fullA + idleA,
    musicA: idleA + fullA * share,
    heatAtSineW: ratedW * (1 / efficiency - 1) + idleA * supplyV,
  };
}

export const ampCurrentCalculation = calculation({
  name: 'ampCurrent',
  about: 'current an amplifier draws at full sine and in music, and its heat',
  caution: 'Battery negative off and insulated before any power wiring.',
  inputs: {
    class: choice(Object.keys(amplifierClasses) as AmplifierClass[]),
    ratedW: number('W', { above: 0 }),
    efficiency: optional(number('', { above: 0, max: 0.98 }), 'by class'),
    supplyV: number('V', { above: 0 }),
    idleA: optional(number('A', { min: 0 }), 'by class and rated power'),
    crestDb: number('dB', { min: 0 }),
  },
  answer({ crestDb, ...amp }) {
    const usual = amplifierClasses[amp.class];
    return success(
      ampCurrent({
        ...amp,
        efficiency: amp.efficiency ?? usual.efficiency,
        idleA: amp.idleA ?? (usual.idleAPer100W * amp.ratedW) / 100,
        duty: dutyFromCrest(crestDb),
      }),
    );
  },
});

// What an ohmmeter should read at the amplifier's end of a lead, and what a reading says of the coil.
import { calculation } from '../../base/calculation.ts';
import { choice, number, optional, orElse, resistance } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';
import { coilsInput, coilsMissing, namedOnce, networkInput, networkOhm } from './coil-network.ts';

/** Rise of copper's resistance per kelvin from 20 C; IEC 60028. */
const copperAlpha = 0.00393;

/** Resistance of a copper coil at a temperature over that at 20 C. */
export const coilRise = (coilC: number) => 1 + copperAlpha * (coilC - 20);

/**
 * Reading of a coil's direct-current resistance where it is known, and where only the label is: the resistance is 0.75 to
 * 0.95 of nominal.
 */
const windows = { re: [0.9, 1, 1.1], nominal: [0.75, 0.85, 0.95] } as const;

/** A reading in ohm; `"open"` where the network lets no current through. */
export type ReadingOhm = number | 'open';

/**
 * Window of a reading: R (1 + 0.00393 (T - 20)) + lead.
 *
 * @param given.ohm      of the coils as wired, at 20 C; above 0, Infinity for open
 * @param given.coilsAre `re` when that is resistance (window +-10 %), `nominal` when it is the label
 * @param given.leadOhm  0 or more: both conductors and the meter's own leads
 * @param given.coilC    -60 .. 350
 * Source: IEC 60268-5 for label and lowest impedance; IEC 60028 for the rise.
 */
export function dcrExpect(given: { ohm: number; coilsAre: keyof typeof windows; leadOhm: number; coilC: number }): {
  lowOhm: ReadingOhm;
  midOhm: ReadingOhm;
  highOhm: ReadingOhm;
} {
  const { ohm, coilsAre, leadOhm, coilC } = given;
  const reading = (share: number): ReadingOhm =>
    Number.isFinite(ohm) ? share * ohm * coilRise(coilC) + leadOhm : 'open';
  const [low, mid, high] = windows[coilsAre];
  return { lowOhm: reading(low), midOhm: reading(mid), highOhm: reading(high) };
}

/**
 * Resistance of a coil at 20 C from a reading.
 *
 * @param given.readingOhm 0 or more, Infinity for open; @param given.leadOhm 0 or more; @param given.coilC -60 .. 350
 * @returns refused as `no-solution` for an open reading, as `contradiction` where the leads alone read as much
 */
export function reFromReading(given: {
  readingOhm: number;
  leadOhm: number;
  coilC: number;
}): Result<{ reAt20: number }> {
  const { readingOhm, leadOhm, coilC } = given;
  if (!Number.isFinite(readingOhm)) {
    return refused(
      'no-solution',
      'readingOhm',
      'An open lead says nothing of the coil.',
      'Find the break: from the driver outwards.',
    );
  }
  if (readingOhm <= leadOhm) {
    const message = `The reading of ${readingOhm} ohm is not above the ${leadOhm} ohm of the leads.`;
    return refused('contradiction', 'readingOhm', message, 'Short the probes and read the leads again.');
  }
  return success({ reAt20: (readingOhm - leadOhm) / coilRise(coilC) });
}

const caution = 'Amplifier unplugged; also measure each lead to body metal: it must read open.';
const leadOhm = orElse(number('ohm', { min: 0 }), 0);
const coilC = orElse(number('C', { min: -60, max: 350 }), 20);

export const dcrExpectCalculation = calculation({
  name: 'dcrExpect',
  about: "what an ohmmeter should read at the amplifier's end of a lead",
  caution,
  inputs: {
    nominalOhm: optional(number('ohm', { above: 0 }), 'from network and coils'),
    network: optional(networkInput, 'nominalOhm'),
    coils: optional(coilsInput, 'nominalOhm'),
    coilsAre: orElse(choice(['re', 'nominal']), 're'),
    leadOhm,
    coilC,
  },
  eitherOf: [
    ['nominalOhm', 'network'],
    ['nominalOhm', 'coils'],
  ],
  alsoMissing: ({ network, coils }) =>
    network === undefined || coils === undefined ? [] : coilsMissing(network, coils),
  answer({ nominalOhm, network, coils, coilsAre, ...reading }) {
    if (nominalOhm !== undefined) {
      if (network !== undefined || coils !== undefined) {
        const message = 'nominalOhm stands for the whole load, and coils are given too.';
        return refused('contradiction', 'nominalOhm', message, 'Give nominalOhm, or network and coils.');
      }
      return success(dcrExpect({ ohm: nominalOhm, coilsAre: 'nominal', ...reading }));
    }
    if (network === undefined || coils === undefined) {
      return refused('missing', 'network', 'network is missing.', 'Give network and coils, or nominalOhm.');
    }
    const sound = namedOnce(network);
    return sound.ok ? success(dcrExpect({ ohm: networkOhm(network, coils), coilsAre, ...reading })) : sound;
  },
});

export const reFromReadingCalculation = calculation({
  name: 'reFromReading',
  about: 'resistance of a coil at 20 C from a reading',
  caution,
  inputs: { readingOhm: resistance({ above: 0 }), leadOhm, coilC },
  answer: reFromReading,
});

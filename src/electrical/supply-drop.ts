// What is lost between battery and amplifier, on the way there and on the way back.
import { calculation } from '../base/calculation.ts';
import { number, optional, orElse } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';
import { type Conductor, conductorFrom, conductorInputs, conductorSize, ohmPerMetre } from './conductor.ts';

/** Crimped lugs, fuse holder, block and body joints of a usual run together, ohm: an assumption of trade practice. */
export const contactOhmDefault = 0.003;

/** The loop from battery plus through the amplifier to battery minus. */
export interface SupplyLoop {
  positive: Conductor;
  /** 0 or more. */
  positiveM: number;
  negative: Conductor;
  /** 0 or more; the body itself counts with the contacts. */
  negativeM: number;
  /** All joints together, 0 or more. */
  contactOhm: number;
}

export interface SupplyDrop {
  loopOhm: number;
  dropV: number;
  /** Of the supply. */
  dropPct: number;
  /** What arrives at the device. */
  deviceV: number;
  heatW: number;
}

/** Resistance of the whole loop, ohm: both leads and the joints. For `regulatedSupply` and `unregulatedSupply` too. */
export function loopResistance({ positive, positiveM, negative, negativeM, contactOhm }: SupplyLoop): number {
  return ohmPerMetre(positive) * positiveM + ohmPerMetre(negative) * negativeM + contactOhm;
}

/**
 * Voltage lost over the loop at a current. Call it with the current at full sine for a bass note, and with the current of
 * music for what heats the cable.
 *
 * @param supplyV  above 0
 * @param currentA 0 or more
 * @returns the drop; refused as `no-solution` where it would reach the supply
 * Source: Ohm's law round the loop.
 */
export function supplyDrop(loop: SupplyLoop, supplyV: number, currentA: number): Result<SupplyDrop> {
  const loopOhm = loopResistance(loop);
  const dropV = currentA * loopOhm;
  if (dropV >= supplyV) {
    const message = `${currentA} A through ${(1000 * loopOhm).toPrecision(3)} mOhm would lose the whole supply of ${supplyV} V.`;
    return refused('no-solution', 'currentA', message, 'Take a thicker cable, a shorter run, or less current.');
  }
  return success({
    loopOhm,
    dropV,
    dropPct: (100 * dropV) / supplyV,
    deviceV: supplyV - dropV,
    heatW: currentA * currentA * loopOhm,
  });
}

export const supplyDropCalculation = calculation({
  name: 'supplyDrop',
  about: 'voltage lost between battery and amplifier, there and back, and what arrives',
  caution: 'Battery negative off and insulated before any power wiring.',
  inputs: {
    supplyV: number('V', { above: 0 }),
    currentA: number('A', { min: 0 }),
    positiveM: number('m', { min: 0 }),
    negativeM: number('m', { min: 0 }),
    contactOhm: orElse(number('ohm', { min: 0 }), contactOhmDefault),
    negativeAreaMm2: optional(number('mm2', { above: 0 }), 'as the positive'),
    ...conductorInputs,
  },
  eitherOf: [conductorSize],
  answer({ supplyV, currentA, positiveM, negativeM, contactOhm, negativeAreaMm2, tempC, ...size }) {
    const positive = conductorFrom(size, tempC);
    if (!positive.ok) return positive;
    const areaMm2 = negativeAreaMm2 === undefined ? positive.value.areaMm2 : negativeAreaMm2 * size.sizeFactor;
    const negative = { ...positive.value, areaMm2 };
    return supplyDrop({ positive: positive.value, positiveM, negative, negativeM, contactOhm }, supplyV, currentA);
  },
});

// The volts at an amplifier's terminals that stand for a power.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';

/** Zero of the dBu scale, V: 1 mW in 600 ohm. */
const dBuZeroV = Math.sqrt(0.6);

/**
 * Volts of a power in a resistor: V = sqrt(P R).
 *
 * Amplifiers are rated in resistors, so these volts stand for the power whatever the driver's impedance does. With the
 * drivers unplugged set 3 % less: unloaded outputs stand 2 to 8 % above loaded ones.
 *
 * @param watt above 0: the smaller of what the amplifier gives and what the driver stands
 * @param ohm  above 0, nominal load
 * @returns `rms` and `peak` of a sine in V
 * @example targetVolts({ watt: 75, ohm: 4 }).rms // 17.32
 */
export function targetVolts({ watt, ohm }: { watt: number; ohm: number }): { rms: number; peak: number; dBu: number } {
  const rms = Math.sqrt(watt) * Math.sqrt(ohm);
  return { rms, peak: rms * Math.SQRT2, dBu: 20 * Math.log10(rms / dBuZeroV) };
}

export const targetVoltsCalculation = calculation({
  name: 'targetVolts',
  about: 'volts that stand for a power in a load; 3 % less with the drivers unplugged',
  caution:
    'Gain work with drivers unplugged. Outputs of full-bridge amplifiers may touch no ground, nor a meter that has one.',
  inputs: { watt: number('W', { above: 0 }), ohm: number('ohm', { above: 0 }) },
  answer: (values) => success(targetVolts(values)),
});

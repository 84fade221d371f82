// The thin wire that tells the devices to wake up.
import { calculation } from '../base/calculation.ts';
import { list, number } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';
import { type Conductor, conductorFrom, conductorInputs, conductorSize, ohmPerMetre } from './conductor.ts';

/**
 * Current of a turn-on lead, whether it needs a relay (more than half of what the source gives), and the voltage at its end.
 *
 * @param lead.sourceLimitA above 0; @param lead.supplyV above 0
 * @param lead.loadsA  one or more, each 0 or more
 * @param lead.lengthM 0 or more, one way: the current comes back through the body
 * @returns refused as `no-solution` where the lead would lose the whole supply
 * Source: Ohm's law; half of the limit is trade practice.
 */
export function turnOnLead(
  conductor: Conductor,
  lead: { sourceLimitA: number; supplyV: number; loadsA: readonly number[]; lengthM: number },
): Result<{ totalA: number; relayNeeded: boolean; endV: number }> {
  const totalA = lead.loadsA.reduce((sum, loadA) => sum + loadA, 0);
  const endV = lead.supplyV - totalA * ohmPerMetre(conductor) * lead.lengthM;
  if (endV <= 0) {
    const message = `${totalA.toPrecision(3)} A would lose the whole supply of ${lead.supplyV} V in this lead.`;
    return refused('no-solution', 'loadsA', message, 'Take a thicker lead, or a relay at its end.');
  }
  return success({ totalA, relayNeeded: totalA > (lead.sourceLimitA / 2) * (1 + 1e-9), endV });
}

export const turnOnLeadCalculation = calculation({
  name: 'turnOnLead',
  about: 'current and voltage of a turn-on lead, and whether it needs a relay',
  caution: 'A relay is fed through a fuse of its own and has a diode across its coil.',
  inputs: {
    sourceLimitA: number('A', { above: 0 }),
    supplyV: number('V', { above: 0 }),
    loadsA: list(number('A', { min: 0 })),
    lengthM: number('m', { min: 0 }),
    ...conductorInputs,
  },
  eitherOf: [conductorSize],
  answer({ sourceLimitA, supplyV, loadsA, lengthM, tempC, ...size }) {
    const conductor = conductorFrom(size, tempC);
    return conductor.ok ? turnOnLead(conductor.value, { sourceLimitA, supplyV, loadsA, lengthM }) : conductor;
  },
});

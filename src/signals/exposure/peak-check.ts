// Whether a single peak can harm.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';
import { levelMaxDb } from './allowance.ts';
import type { DoseState } from './dose.ts';

/**
 * `warn` from 135 dB, `stop` from 140 dB.
 *
 * @param peakDb C-weighted peak, up to 194
 * Source: directive 2003/10/EC, article 3: action values 135 and 137 dB, limit 140 dB.
 */
export function peakCheck(peakDb: number): DoseState {
  return peakDb >= 140 ? 'stop' : peakDb >= 135 ? 'warn' : 'ok';
}

export const peakCheckCalculation = calculation({
  name: 'peakCheck',
  about: 'whether a C-weighted peak can harm',
  caution: 'No one is in the car above the peak limit, protected or not.',
  inputs: { peakDb: number('dB', { max: levelMaxDb }) },
  answer: ({ peakDb }) => success({ state: peakCheck(peakDb) }),
});

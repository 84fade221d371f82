// What a signal lead and the input behind it take from the level and from the treble.
import { calculation } from '../base/calculation.ts';
import { number, orElse } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';

/**
 * Loss from loading, corner of the lead's capacitance, and what that takes at one frequency.
 *
 * @param sourceOhm above 0; @param inputOhm above 0
 * @param lengthM   0 or more; @param pfPerM above 0, usually 60 to 150
 * @param freqHz    above 0
 * @returns losses in dB, positive; `cornerHz` null for a lead without length
 * Source: voltage divider; first-order low-pass of the source and input resistances in parallel.
 */
export function signalLine(given: {
  sourceOhm: number;
  inputOhm: number;
  lengthM: number;
  pfPerM: number;
  freqHz: number;
}): { lossDb: number; cornerHz: number | null; extraLossAtFreqDb: number } {
  const { sourceOhm, inputOhm, lengthM, pfPerM, freqHz } = given;
  const parallelOhm = sourceOhm / (1 + sourceOhm / inputOhm);
  const turn = 2 * Math.PI * parallelOhm * lengthM * pfPerM * 1e-12;
  return {
    lossDb: 20 * Math.log10(1 + sourceOhm / inputOhm),
    cornerHz: turn === 0 ? null : 1 / turn,
    extraLossAtFreqDb: (10 * Math.log1p((freqHz * turn) ** 2)) / Math.LN10,
  };
}

export const signalLineCalculation = calculation({
  name: 'signalLine',
  about: 'level and treble that a signal lead costs',
  inputs: {
    sourceOhm: number('ohm', { above: 0 }),
    inputOhm: number('ohm', { above: 0 }),
    lengthM: number('m', { min: 0 }),
    pfPerM: number('pF/m', { above: 0 }),
    freqHz: orElse(number('Hz', { above: 0 }), 20000),
  },
  answer: (values) => success(signalLine(values)),
});

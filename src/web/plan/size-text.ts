// Lengths of a vehicle as the person reads lengths.
import { fixedText, type NumberStyle } from '../../charts/number-words.ts';

const inchesPerM = 1 / 0.0254;

export interface SizeText {
  unit: 'm' | 'in';
  text: (lengthM: number) => string;
}

/** Metres with two decimals, or whole inches. */
export function sizeText(settings: NumberStyle & { units: 'metric' | 'imperial' }): SizeText {
  return settings.units === 'imperial'
    ? { unit: 'in', text: (lengthM) => fixedText(lengthM * inchesPerM, 0, settings) }
    : { unit: 'm', text: (lengthM) => fixedText(lengthM, 2, settings) };
}

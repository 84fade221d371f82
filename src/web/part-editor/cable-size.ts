// The size of a cable as it is printed on it: square millimetres, or an American gauge.
import { type NumberStyle, plainNumbers } from '../../charts/number-words.ts';
import { wireArea } from '../../electrical/wire-area.ts';
import { numberText } from './quantity.ts';

/** As the plan keeps it: one of the two. */
export type CableSize = { areaMm2: number } | { gauge: number };

/** Sizes that are sold, mm2. */
export const soldMm2 = [0.35, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 20, 25, 35, 50, 70, 95, 120];
/** Gauges that are sold, the thinnest first; 0 is 1/0. */
export const soldGauges = [22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3];

const least = -3;
const most = 40;
const areaRange = { min: 0.05, max: 1000 };

export const gaugeText = (gauge: number): string => `${gauge <= 0 ? `${1 - gauge}/0` : gauge} AWG`;

/** `35 mm2` or `4 AWG`. */
export function cableSizeText(
  size: Partial<{ areaMm2: number; gauge: number }>,
  style: NumberStyle = plainNumbers,
): string {
  if (size.areaMm2 !== undefined) return `${numberText(size.areaMm2, style)} mm\u00b2`;
  return size.gauge === undefined ? '' : gaugeText(size.gauge);
}

/** The metal of a size, mm2. */
export const areaOf = (size: CableSize): number =>
  'areaMm2' in size ? size.areaMm2 : wireArea({ awg: size.gauge }).areaMm2;

export const cableSizeRange = 'A size from 0.05 to 1000 mm\u00b2, or a gauge from 40 to 4/0 AWG.';

/** What was typed: `16`, `2,5 mm2`, `4 AWG`, `1/0`. A bare number is of the unit that the person uses. Null: no size. */
export function typedCableSize(text: string, bare: 'mm2' | 'awg'): CableSize | null {
  const plain = text.trim().toLowerCase().replace('mm\u00b2', 'mm2').replace(',', '.');
  const aught = /^([1-4])\/0\s*(?:awg|ga)?$/.exec(plain);
  if (aught) return { gauge: 1 - Number(aught[1]) };
  const found = /^(-?\d+(?:\.\d+)?)\s*(mm2|awg|ga|gauge|)$/.exec(plain);
  if (!found) return null;
  const value = Number(found[1]);
  const unit = found[2] === '' ? bare : found[2];
  if (unit === 'mm2') return value >= areaRange.min && value <= areaRange.max ? { areaMm2: value } : null;
  return Number.isInteger(value) && value >= least && value <= most ? { gauge: value } : null;
}

/** The next size that is sold. */
export function steppedCableSize(size: CableSize, way: 1 | -1): CableSize {
  if ('gauge' in size) {
    const at = soldGauges.findIndex((gauge) => gauge <= size.gauge);
    const next = soldGauges[Math.max(0, (at < 0 ? soldGauges.length - 1 : at) + way)];
    return next === undefined ? size : { gauge: next };
  }
  const next =
    way > 0 ? soldMm2.find((mm2) => mm2 > size.areaMm2 + 1e-9) : soldMm2.findLast((mm2) => mm2 < size.areaMm2 - 1e-9);
  return next === undefined ? size : { areaMm2: next };
}

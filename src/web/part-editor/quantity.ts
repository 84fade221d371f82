// Numbers with their units, as a person types and reads them: point or comma, and the units that are in use.
import { type NumberStyle, plainNumbers, significantText } from '../../charts/number-words.ts';

/** A kind of measure: the unit that the plan keeps, and what others are worth in it. */
export interface Quantity {
  /** Behind the number; empty for a bare number. */
  unit: string;
  /** Other units that may be typed, in lower case, by what one of them is in the plan's unit. */
  others?: Readonly<Record<string, number>>;
}

const inch = 25.4;

export const quantities = {
  number: { unit: '' },
  hertz: { unit: 'Hz', others: { khz: 1000, k: 1000 } },
  metres: {
    unit: 'm',
    others: { cm: 0.01, mm: 0.001, ft: 12 * inch * 0.001, "'": 12 * inch * 0.001, in: inch * 0.001 },
  },
  millimetres: { unit: 'mm', others: { cm: 10, m: 1000, in: inch, '"': inch } },
  volts: { unit: 'V', others: { mv: 0.001 } },
  amperes: { unit: 'A', others: { ma: 0.001 } },
  watts: { unit: 'W', others: { kw: 1000 } },
  ohms: { unit: 'ohm', others: { mohm: 0.001, kohm: 1000, '\u03c9': 1 } },
  decibels: { unit: 'dB' },
  decibelsA: { unit: 'dBA', others: { 'db(a)': 1, db: 1 } },
  percent: { unit: '%' },
  minutes: { unit: 'min', others: { h: 60, s: 1 / 60 } },
  milliseconds: { unit: 'ms', others: { s: 1000 } },
  celsius: { unit: '\u00b0C', others: { c: 1 } },
  litres: { unit: 'L', others: { l: 1, ml: 0.001, cm3: 0.001, m3: 1000 } },
  cubicMetres: { unit: 'm\u00b3', others: { m3: 1, l: 0.001 } },
  squareCentimetres: { unit: 'cm\u00b2', others: { cm2: 1, mm2: 0.01, m2: 10_000 } },
  grams: { unit: 'g', others: { kg: 1000 } },
  kilograms: { unit: 'kg', others: { g: 0.001, lb: 0.45359237 } },
  millihenries: { unit: 'mH', others: { uh: 0.001 } },
  ampereHours: { unit: 'Ah' },
  perNewton: { unit: 'mm/N' },
  teslaMetres: { unit: 'T m', others: { tm: 1 } },
  microvolts: { unit: '\u00b5V', others: { uv: 1, mv: 1000 } },
} as const satisfies Record<string, Quantity>;

export type QuantityName = keyof typeof quantities;

/** A typed number in the plan's unit, or null where it is none. */
export function typedNumber(text: string, quantity: Quantity): number | null {
  const found = /^\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(.*?)\s*$/.exec(text.replaceAll('\u2212', '-'));
  if (!found) return null;
  const value = Number(found[1].replace(',', '.'));
  const unit = found[2].toLowerCase();
  if (unit === '' || unit === quantity.unit.toLowerCase()) return value;
  const factor = quantity.others?.[unit];
  return factor === undefined ? null : Number((value * factor).toPrecision(12));
}

/** A number without its unit, to six figures. */
export function numberText(value: number, style: NumberStyle = plainNumbers): string {
  return value < 0 ? `\u2212${significantText(-value, 6, style)}` : significantText(value, 6, style);
}

/** A number with its unit. */
export function quantityText(value: number, quantity: Quantity, style: NumberStyle = plainNumbers): string {
  return quantity.unit === '' ? numberText(value, style) : `${numberText(value, style)} ${quantity.unit}`;
}

export interface Range {
  min: number;
  max: number;
  /** Only whole numbers. */
  whole?: boolean;
}

/** What may be typed, in a sentence. */
export function rangeText({ min, max, whole }: Range, quantity: Quantity, style: NumberStyle = plainNumbers): string {
  const number = whole ? 'A whole number' : 'A number';
  return `${number} from ${numberText(min, style)} to ${quantityText(max, quantity, style)}.`;
}

export const inRange = (value: number, { min, max, whole }: Range): boolean =>
  value >= min && value <= max && (!whole || Number.isInteger(value));

/** How far one press moves a value: about a tenth of it, a 1, 2 or 5. */
export function stepOf(value: number): number {
  if (value === 0) return 1;
  const decade = 10 ** Math.floor(Math.log10(Math.abs(value)) + 1e-9);
  const lead = Math.abs(value) / decade;
  return lead < 2 ? decade / 10 : lead < 5 ? decade / 5 : decade / 2;
}

/** The next value up or down: from `steps` where there are any, else the next multiple of a step. */
export function stepped(value: number, way: 1 | -1, range: Range, steps?: readonly number[]): number {
  const within = (next: number) => Math.min(range.max, Math.max(range.min, next));
  if (steps !== undefined && steps.length > 0) {
    const next = way > 0 ? steps.find((step) => step > value + 1e-9) : steps.findLast((step) => step < value - 1e-9);
    return next ?? value;
  }
  // Going down from 100 the step is that of 99.
  const step = range.whole ? 1 : stepOf(way < 0 ? value * (1 - 1e-6) : value);
  const count = value / step;
  const next = way > 0 ? Math.floor(count + 1e-6) + 1 : Math.ceil(count - 1e-6) - 1;
  return within(Number((next * step).toPrecision(10)));
}

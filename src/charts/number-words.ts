// Numbers as a person reads them: a true minus sign, the decimal sign of the place, as many digits as carry something.

/** How a person writes numbers. */
export interface NumberStyle {
  decimal: '.' | ',';
}

export const plainNumbers: NumberStyle = { decimal: '.' };

/** `value` with a fixed count of decimals; what rounds to zero has no sign. */
export function fixedText(value: number, decimals: number, { decimal }: NumberStyle = plainNumbers): string {
  const text = Math.abs(value).toFixed(decimals).replace('.', decimal);
  const isZero = Number(value.toFixed(decimals)) === 0;
  return value < 0 && !isZero ? `\u2212${text}` : text;
}

/** The same with a plus sign before what is above zero. */
export function signedText(value: number, decimals: number, style: NumberStyle = plainNumbers): string {
  return Number(value.toFixed(decimals)) > 0
    ? `+${fixedText(value, decimals, style)}`
    : fixedText(value, decimals, style);
}

/** `value` >= 0 with `digits` significant digits, without exponent and without zeros that carry nothing. */
export function significantText(value: number, digits: number, style: NumberStyle = plainNumbers): string {
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(digits));
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(rounded))));
  const text = fixedText(rounded, Math.min(decimals, 12), style);
  return decimals > 0 ? text.replace(/[.,]?0+$/, '') : text;
}

/** A frequency: `82 Hz`, `1.6 kHz`, `12.5 kHz`. */
export function frequencyText(fHz: number, style: NumberStyle = plainNumbers): string {
  if (fHz >= 999.5) return `${significantText(fHz / 1000, 3, style)} kHz`;
  return `${significantText(fHz, fHz >= 99.5 ? 3 : 2, style)} Hz`;
}

/** A share in percent: `12 %`, `1.1 %`, `0.023 %`. */
export function percentText(pct: number, style: NumberStyle = plainNumbers): string {
  return `${significantText(pct, 2, style)} %`;
}

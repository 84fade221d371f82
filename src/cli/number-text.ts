// Numbers as a person reads them: as many digits as carry something, the unit beside them.
import type { TextStyle } from './output.ts';

/** Signs that have a plain stand-in where only ASCII shows. */
export function signs(style: Pick<TextStyle, 'unicode'>): { plusMinus: string; atMost: string; dash: string } {
  return style.unicode
    ? { plusMinus: '\u00b1', atMost: '\u2264', dash: '\u2013' }
    : { plusMinus: '+-', atMost: '<=', dash: '-' };
}

/** `value` with `digits` significant digits and no exponent, for magnitudes of everyday use. */
export function significant(value: number, digits: number): string {
  if (value === 0) return '0';
  const decimals = digits - 1 - Math.floor(Math.log10(Math.abs(value)));
  if (decimals >= 0) return value.toFixed(Math.min(decimals, 12));
  const step = 10 ** -decimals;
  return String(Math.round(value / step) * step);
}

/** A frequency: `82 Hz`, `349 Hz`, `3.28 kHz`. */
export function hzText(fHz: number): string {
  if (fHz >= 999.5) return `${significant(fHz / 1000, 3)} kHz`;
  return `${significant(fHz, fHz >= 99.5 ? 3 : 2)} Hz`;
}

/** A share in percent with two digits that carry: `12 %`, `1.1 %`, `0.023 %`. */
export function percentText(pct: number): string {
  return `${significant(pct, 2)} %`;
}

/** A value and its standard deviation, both to the deviation's first digit: `1.487 ± 0.004 ms`. */
export function uncertainText(value: number, sigma: number | undefined, unit: string, style: TextStyle): string {
  if (sigma === undefined || !(sigma > 0)) return `${significant(value, 4)} ${unit}`;
  const decimals = Math.min(Math.max(-Math.floor(Math.log10(sigma)), 0), 6);
  const least = 10 ** -decimals;
  const spread = Math.max(sigma, least).toFixed(decimals);
  return `${value.toFixed(decimals)} ${signs(style).plusMinus} ${spread} ${unit}`;
}

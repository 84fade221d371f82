// Figures that two machines computed: their last digits may differ, and that changes nothing.
import type { Finding } from './findings.ts';

type Values = Finding['values'];

/** Far more than rounding leaves, far less than any meter shows. */
const SLACK = 1e-9;

/** Whether two figures are one: a browser's logarithm may end in another digit than the server's. */
export function sameFigure(one: Values[string] | undefined, other: Values[string] | undefined): boolean {
  if (typeof one !== 'number' || typeof other !== 'number') return one === other;
  return Math.abs(one - other) <= SLACK * Math.max(Math.abs(one), Math.abs(other));
}

/** Whether two findings carry the same figures under the same names. */
export function sameFigures(a: Values, b: Values): boolean {
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => sameFigure(a[key], b[key]));
}

// One spelling for one value, so that a hash of it means something.
import { assert } from '../base/assert.ts';

/**
 * The canonical spelling of a JSON value: no blanks, keys in the order of their UTF-16 code units, numbers and strings as
 * ECMAScript writes them.
 *
 * @param value what `JSON.parse` could give; fields that are undefined are left out, as JSON leaves them out
 * @throws Error what JSON cannot say: a number that is not finite, half a surrogate pair, a function
 * Source: RFC 8785, JSON Canonicalization Scheme.
 * @example canonicalJson({ b: 1e3, a: 'é' }) === '{"a":"é","b":1000}'
 */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === 'boolean') return String(value);
  if (typeof value === 'number') {
    assert(Number.isFinite(value), `a number must be finite, got ${value}`);
    return JSON.stringify(value);
  }
  if (typeof value === 'string') {
    assert(!/\p{Surrogate}/u.test(value), 'text must not hold half a surrogate pair');
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  assert(typeof value === 'object', `JSON has no ${typeof value}`);
  const fields = value as Record<string, unknown>;
  const keys = Object.keys(fields).filter((key) => fields[key] !== undefined);
  // The default order of sort is the order of code units that the source asks for.
  return `{${keys
    .sort()
    .map((key) => `${canonicalJson(key)}:${canonicalJson(fields[key])}`)
    .join(',')}}`;
}

import { expect, test } from 'vitest';
import { canonicalJson } from './canonical-json.ts';

test('spells the sample of the standard as the standard does', () => {
  // RFC 8785, section 3.2.2 (input) and 3.2.3 (result).
  const input = String.raw`{
    "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
    "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
    "literals": [null, true, false]
  }`;
  const result = String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`;
  expect(canonicalJson(JSON.parse(input))).toBe(result);
});

test('sorts keys by their UTF-16 code units, as the example of the standard', () => {
  // RFC 8785, section 3.2.3: the order of these values, whatever the order they come in.
  const input = {
    '\u20ac': 'Euro Sign',
    '\r': 'Carriage Return',
    '\ufb33': 'Hebrew Letter Dalet With Dagesh',
    '1': 'One',
    '\ud83d\ude00': 'Emoji: Grinning Face',
    '\u0080': 'Control',
    '\u00f6': 'Latin Small Letter O With Diaeresis',
  };
  expect(Object.values(JSON.parse(canonicalJson(input)) as object)).toHaveLength(7);
  const order = [...canonicalJson(input).matchAll(/:"([^"]*)"/g)].map(([, value]) => value);
  expect(order).toEqual([
    'Carriage Return',
    'One',
    'Control',
    'Latin Small Letter O With Diaeresis',
    'Euro Sign',
    'Emoji: Grinning Face',
    'Hebrew Letter Dalet With Dagesh',
  ]);
});

test.each([
  // RFC 8785, appendix B.
  [-0, '0'],
  [5e-324, '5e-324'],
  [1.7976931348623157e308, '1.7976931348623157e+308'],
  [9007199254740992, '9007199254740992'],
  [295147905179352830000, '295147905179352830000'],
  [9.999999999999997e22, '9.999999999999997e+22'],
  [1e23, '1e+23'],
  [0.000001, '0.000001'],
  [333333333.3333332, '333333333.3333332'],
  [-0.0000033333333333333333, '-0.0000033333333333333333'],
])('writes %d as the standard lists it', (value, spelled) => {
  expect(canonicalJson(value)).toBe(spelled);
});

test('leaves out what JSON leaves out, and refuses what JSON cannot say', () => {
  expect(canonicalJson({ b: undefined, a: [] })).toBe('{"a":[]}');
  for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, '\ud800', { '\udc00': 1 }, undefined, () => 1]) {
    expect(() => canonicalJson(bad)).toThrow();
  }
});

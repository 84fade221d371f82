import { expect, test } from 'vitest';
import { areaOf, cableSizeText, steppedCableSize, typedCableSize } from './cable-size.ts';

test.each([
  ['16', 'mm2', { areaMm2: 16 }],
  ['2,5 mm2', 'awg', { areaMm2: 2.5 }],
  ['35 mm\u00b2', 'awg', { areaMm2: 35 }],
  ['4 AWG', 'mm2', { gauge: 4 }],
  ['4', 'awg', { gauge: 4 }],
  ['1/0', 'mm2', { gauge: 0 }],
  ['4/0 awg', 'mm2', { gauge: -3 }],
  ['8ga', 'mm2', { gauge: 8 }],
] as const)('%s, bare numbers %s, is read', (text, bare, size) => {
  expect(typedCableSize(text, bare)).toEqual(size);
});

test.each(['', 'thick', '5/0', '41 AWG', '2.5 AWG', '0', '2000'])('"%s" is no size', (text) => {
  expect(typedCableSize(text, 'mm2')).toBeNull();
});

test('a gauge is said as it is printed, and 1/0 holds 53.48 mm2 (ASTM B258)', () => {
  expect(cableSizeText({ gauge: 0 })).toBe('1/0 AWG');
  expect(cableSizeText({ areaMm2: 2.5 }, { decimal: ',' })).toBe('2,5 mm\u00b2');
  expect(areaOf({ gauge: 0 })).toBeCloseTo(53.48, 2);
});

test('a step goes to the next size that is sold, and stays at the ends', () => {
  expect(steppedCableSize({ areaMm2: 10 }, 1)).toEqual({ areaMm2: 16 });
  expect(steppedCableSize({ areaMm2: 12 }, -1)).toEqual({ areaMm2: 10 });
  expect(steppedCableSize({ gauge: 4 }, 1)).toEqual({ gauge: 2 });
  expect(steppedCableSize({ gauge: -3 }, 1)).toEqual({ gauge: -3 });
  expect(steppedCableSize({ gauge: 4 }, -1)).toEqual({ gauge: 6 });
});

import { describe, expect, test } from 'vitest';
import { calculation } from './calculation.ts';
import {
  choice,
  flag,
  list,
  named,
  number,
  optional,
  orElse,
  record,
  resistance,
  shownValue,
  text,
} from './calculation-inputs.ts';
import { refused } from './refusal.ts';
import { success } from './result.ts';

const volume = calculation({
  name: 'volume',
  about: 'a made-up calculation',
  inputs: {
    widthM: number('m', { above: 0 }),
    heightM: orElse(number('m', { min: 0, max: 10 }), 2),
    count: optional(number('', { min: 1, whole: true })),
    shape: orElse(choice(['box', 'wedge']), 'box'),
    layersM: optional(list(number('m', { min: 0 }))),
    parts: optional(list(record({ name: text, heightM: number('m') }))),
    coils: optional(named(resistance())),
    round: orElse(flag, false),
  },
  answer({ widthM, heightM, shape, coils, parts }) {
    if (widthM === 13) return refused('no-solution', 'widthM', 'Not 13.', 'Give another.');
    return success({
      areaM2: (widthM * heightM) / (shape === 'wedge' ? 2 : 1),
      open: [...(coils ?? [])].map(([name, ohm]) => (ohm === Number.POSITIVE_INFINITY ? name : ohm)),
      names: parts?.map(({ name }) => name) ?? [],
    });
  },
});

function refusal(given: unknown): string {
  const found = volume.run(given);
  return found.ok ? 'none' : `${found.issues[0].code} ${found.issues[0].where}`;
}

function answer(given: unknown) {
  const found = volume.run(given);
  if (!found.ok) throw new Error(found.issues[0].message);
  return found.value;
}

describe('a calculation', () => {
  test('takes defaults for what is absent or null', () => {
    expect(answer({ widthM: 3 })).toEqual({ areaM2: 6, open: [], names: [] });
    expect(answer({ widthM: 3, heightM: null, shape: null, coils: null })).toEqual({ areaM2: 6, open: [], names: [] });
  });

  test('reads lists, records, named values and open resistances', () => {
    const parts = [{ name: 'a', heightM: 1 }];
    expect(answer({ widthM: 1, parts, coils: { constructor: 'open', __proto__: null, b: 4 } })).toEqual({
      areaM2: 2,
      open: ['constructor', 4],
      names: ['a'],
    });
  });

  test('takes any name for a named value, also those an object has by itself', () => {
    const given = JSON.parse('{"widthM": 1, "coils": {"__proto__": 4, "toString": "open"}}');
    expect(answer(given).open).toEqual([4, 'toString']);
  });

  test.each([
    ['nothing at all', {}, 'missing widthM'],
    ['null', { widthM: null }, 'missing widthM'],
    ['an empty list in a record', { widthM: 1, parts: [{ name: [], heightM: 1 }] }, 'unsupported parts[0].name'],
    ['a hole in a list', { widthM: 1, layersM: [1, null] }, 'missing layersM[1]'],
    ['a field of a record', { widthM: 1, parts: [{ name: 'a' }] }, 'missing parts[0].heightM'],
    ['an empty name', { widthM: 1, parts: [{ name: '', heightM: 1 }] }, 'missing parts[0].name'],
    ['no names', { widthM: 1, coils: {} }, 'missing coils'],
    ['text', { widthM: '1' }, 'not-a-number widthM'],
    ['true', { widthM: true }, 'not-a-number widthM'],
    ['a list for a number', { widthM: [1] }, 'not-a-number widthM'],
    ['NaN', { widthM: Number.NaN }, 'not-a-number widthM'],
    ['infinity', { widthM: Number.POSITIVE_INFINITY }, 'not-a-number widthM'],
    ['text in a list', { widthM: 1, layersM: [1, 'x'] }, 'not-a-number layersM[1]'],
    ['text for a list of numbers', { widthM: 1, layersM: 'x' }, 'not-a-number layersM'],
    ['a number for a list', { widthM: 1, layersM: 3 }, 'not-a-number layersM'],
    ['another word for a resistance', { widthM: 1, coils: { a: 'closed' } }, 'not-a-number coils.a'],
    ['the bound that does not belong', { widthM: 0 }, 'out-of-range widthM'],
    ['above the bound', { widthM: 1, heightM: 10.01 }, 'out-of-range heightM'],
    ['a part of one', { widthM: 1, count: 1.5 }, 'out-of-range count'],
    ['a word that is not known', { widthM: 1, shape: 'ball' }, 'unsupported shape'],
    ['a number for a word', { widthM: 1, shape: 3 }, 'unsupported shape'],
    ['a number for a name', { widthM: 1, parts: [{ name: 3, heightM: 1 }] }, 'unsupported parts[0].name'],
    ['text for true', { widthM: 1, round: 'yes' }, 'unsupported round'],
    ['what the formula refuses', { widthM: 13 }, 'no-solution widthM'],
    ['a result that overflows', { widthM: 1e308, heightM: 10 }, 'out-of-range areaM2'],
  ])('refuses %s', (_, given, expected) => {
    expect(refusal(given)).toBe(expected);
  });

  test.each([[[1]], [null], ['text'], [3], [undefined]])('refuses inputs that are no object: %j', (given) => {
    expect(refusal(given)).toBe('missing inputs');
  });

  test('has bounds that belong to the range', () => {
    expect(refusal({ widthM: 1, heightM: 0 })).toBe('none');
    expect(refusal({ widthM: 1, heightM: 10, count: 1 })).toBe('none');
  });

  test('looks for each kind of fault over all inputs before the next', () => {
    const found = volume.run({ shape: 'ball', count: 0, heightM: 'x', layersM: [-1, null] });
    expect(found.ok ? [] : found.issues.map(({ code, where }) => `${code} ${where}`)).toEqual([
      'missing widthM',
      'missing layersM[1]',
      'not-a-number heightM',
      'out-of-range count',
      'out-of-range layersM[0]',
      'unsupported shape',
    ]);
  });

  test('asks for one of two inputs that stand for each other, and for a list that is not empty', () => {
    const size = calculation({
      name: 'size',
      about: 'a made-up calculation',
      inputs: { awg: optional(number()), areaMm2: optional(number()), stepsM: list(number('m')) },
      eitherOf: [['awg', 'areaMm2']],
      answer: ({ stepsM }) => success({ steps: stepsM.length }),
    });
    const codes = (given: unknown) => {
      const found = size.run(given);
      return found.ok ? [] : found.issues.map(({ code, where }) => `${code} ${where}`);
    };
    expect(codes({ areaMm2: null, stepsM: [] })).toEqual(['missing stepsM', 'missing awg']);
    expect(codes({ stepsM: ['x'] })).toEqual(['missing awg', 'not-a-number stepsM[0]']);
    expect(codes({ areaMm2: 2, stepsM: [1] })).toEqual([]);
  });

  test('takes an empty list for a list that may be left out', () => {
    expect(refusal({ widthM: 1, layersM: [] })).toBe('none');
  });

  test('does not inherit inputs', () => {
    expect(refusal(Object.create({ widthM: 1 }))).toBe('missing widthM');
  });

  test('says the form of each input', () => {
    const forms = Object.values(volume.inputs).map((input) => [input.form, input.default]);
    expect(forms).toEqual([
      ['number above 0, m', undefined],
      ['number 0 to 10, m', '2'],
      ['whole number 1 or more', 'none'],
      ['one of box, wedge', 'box'],
      ['list of number 0 or more, m', 'none'],
      ['list of {name: text; heightM: number, m}', 'none'],
      ['{name: number above 0, ohm, or "open", ...}', 'none'],
      ['true or false', 'false'],
    ]);
  });
});

test('a value is shown short, however deep or long it is', () => {
  const deep = JSON.parse(`${'['.repeat(5000)}${']'.repeat(5000)}`);
  expect([deep, { a: deep }, 'x'.repeat(1000), 3, null].map(shownValue)).toEqual([
    'a list',
    'an object',
    `"${'x'.repeat(40)}"`,
    '3',
    'null',
  ]);
});

import { describe, expect, test } from 'vitest';
import { inputsIn } from './given-inputs.ts';

function read(text: string): unknown {
  const found = inputsIn(text, 'f.json');
  return found.ok ? found.value : found.issues[0].code;
}

describe('inputs from text', () => {
  test('are the object, or what stands in its "inputs"', () => {
    expect(read('{"calc":"a","b":1}')).toEqual({ calc: 'a', b: 1 });
    expect(read('{"inputs":{"calc":"a"}}')).toEqual({ calc: 'a' });
    expect(read('{"name":"case","inputs":{"calc":"a"},"expected":{}}')).toEqual({ calc: 'a' });
    expect(read('{"calc":"a","inputs":{"calc":"b"}}')).toEqual({ calc: 'a', inputs: { calc: 'b' } });
  });

  test.each([
    ['', 'missing'],
    [' \n', 'missing'],
    ['[]', 'missing'],
    ['null', 'missing'],
    ['"text"', 'missing'],
    ['{"calc":NaN}', 'not-json'],
    ['{', 'not-json'],
  ])('%j is refused as %s', (text, code) => {
    expect(read(text)).toBe(code);
  });
});

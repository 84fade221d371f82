// Whatever comes in, a calculation answers with finite numbers or refuses with one of its six codes; it never throws.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Calculation } from '../../src/base/calculation.ts';
import { refusalCodes } from '../../src/base/refusal.ts';
import { topics } from '../../src/cli/compute/topics.ts';
import electrical from '../vectors/electrical.json' with { type: 'json' };
import exposure from '../vectors/exposure.json' with { type: 'json' };
import gains from '../vectors/gains.json' with { type: 'json' };
import loads from '../vectors/loads.json' with { type: 'json' };

const calculations: Calculation[] = (await Promise.all(topics.map(({ load }) => load()))).flat();
const cases = [electrical, exposure, gains, loads].flatMap((suite) => suite.cases as { inputs: { calc: string } }[]);

const number = fc.oneof(
  fc.double(),
  fc.constantFrom(0, -0, 1, -1, 1e308, -1e308, 5e-324, 4, 0.5, 100),
  fc.integer({ min: -5, max: 300 }),
);
const value = fc.letrec((tie) => ({
  any: fc.oneof(
    { maxDepth: 4 },
    number,
    fc.constantFrom(null, true, 'open', 'A', '', 'copper', [], {}),
    fc.array(tie('any'), { maxLength: 3 }),
    fc.dictionary(fc.constantFrom('s', 'p', 'A', 'B', '4', '__proto__', 'name', 'levelDba', 'minutes'), tie('any')),
  ),
})).any;

/** Whether every number in `result` is finite. */
function finite(result: unknown): boolean {
  if (typeof result === 'number') return Number.isFinite(result);
  return typeof result !== 'object' || result === null || Object.values(result).every(finite);
}

/** How a calculation takes `inputs`: `answered`, or the code of its refusal. */
function taken({ run }: Calculation, inputs: unknown): string {
  const found = run(inputs);
  if (found.ok) return finite(found.value) ? 'answered' : 'not finite';
  return found.issues.every(({ message, where, mend }) => message && where && mend) ? found.issues[0].code : 'unsaid';
}

const allowed = ['answered', ...refusalCodes];

describe.each(calculations.map((one) => ({ name: one.name, one })))('$name', ({ name, one }) => {
  const good = cases.filter(({ inputs }) => inputs.calc === name).map(({ inputs }) => inputs);

  test('takes anything for its inputs', () => {
    const inputs = fc.record(Object.fromEntries(Object.keys(one.inputs).map((key) => [key, value])), {
      requiredKeys: [],
    });
    fc.assert(
      fc.property(inputs, (given) => allowed.includes(taken(one, given))),
      { numRuns: 100 },
    );
  });

  test('takes good inputs with one spoiled', () => {
    fc.assert(
      fc.property(
        fc.constantFrom({}, ...good),
        fc.constantFrom(...Object.keys(one.inputs)),
        value,
        (inputs, key, spoiled) => {
          const before = JSON.stringify(inputs);
          expect(allowed).toContain(taken(one, { ...inputs, [key]: spoiled }));
          expect(JSON.stringify(inputs)).toBe(before);
        },
      ),
      { numRuns: 100 },
    );
  });

  test('takes good inputs with numbers of any size', () => {
    fc.assert(
      fc.property(
        fc.constantFrom({}, ...good),
        fc.array(number, { minLength: 30, maxLength: 30 }),
        (inputs, numbers) => {
          let at = 0;
          const swapped = JSON.parse(JSON.stringify(inputs), (_, inner) =>
            typeof inner === 'number' && at < numbers.length ? numbers[at++] : inner,
          );
          expect(allowed).toContain(taken(one, swapped));
        },
      ),
      { numRuns: 100 },
    );
  });
});

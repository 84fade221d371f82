// `compute` as a script and a person meet it: the real command, one calculation per call.
import { spawnSync } from 'node:child_process';
import { afterAll, describe, expect, test } from 'vitest';
import { differences } from '../vectors/calculation-cases.ts';
import electrical from '../vectors/electrical.json' with { type: 'json' };
import exposure from '../vectors/exposure.json' with { type: 'json' };
import gains from '../vectors/gains.json' with { type: 'json' };
import loads from '../vectors/loads.json' with { type: 'json' };
import { workbench } from './kickpanel.ts';

const bench = workbench();
afterAll(() => bench.clear());

/** What the command answers to inputs in a file. */
function answerTo(topic: string, inputs: unknown) {
  const file = bench.write('inputs.json', typeof inputs === 'string' ? inputs : JSON.stringify(inputs));
  const { status, stdout, stderr } = bench.kickpanel('compute', topic, file, '--json');
  return { status, answer: JSON.parse(stdout), stderr };
}

const suites = { electrical, loads, gains, exposure };

/** A few of each topic: an answer and a refusal; all cases are held against the functions themselves. */
const cases = Object.entries(suites).flatMap(([topic, { cases }]) => {
  const answered = cases.find(({ expected }) => !('error' in expected));
  const refusals = cases.filter(({ expected }) => 'error' in expected).slice(0, 1);
  return [answered, ...refusals].flatMap((found) => (found === undefined ? [] : [{ ...found, topic }]));
});

describe('compute', () => {
  test.each(cases)('$topic: $name', ({ topic, inputs, expected, tolerance }) => {
    const { status, answer, stderr } = answerTo(topic, inputs);
    const refused = 'error' in expected;
    expect(status).toBe(refused ? 2 : 0);
    expect(stderr).toBe('');
    expect(differences(refused ? { error: answer.error.code } : answer, expected, tolerance)).toEqual([]);
  });

  test.each([
    ['missing', 'electrical', { calc: 'wireArea' }],
    ['not-a-number', 'electrical', { calc: 'wireArea', awg: 'NaN' }],
    ['out-of-range', 'electrical', { calc: 'conductorResistance', areaMm2: 4, lengthM: -1 }],
    ['contradiction', 'gains', { calc: 'testFrequency', lowHz: 80, highHz: 40, meterHz: 1000 }],
    ['no-solution', 'gains', { calc: 'overdriveForThd', thdPct: 41 }],
    ['unsupported', 'loads', { calc: 'wiringSet', coilOhms: [1, 1, 1, 1, 1, 1, 1, 1, 1] }],
    ['unsupported', 'loads', { calc: 'wiringSets', coilOhms: [1] }],
    ['missing', 'loads', { coilOhms: [1] }],
    ['missing', 'loads', [1]],
    ['not-json', 'loads', '{"calc":'],
  ])('refuses with %s in %s: %j', (code, topic, inputs) => {
    const { status, answer } = answerTo(topic, inputs);
    expect(status).toBe(2);
    expect(answer.error).toMatchObject({ code, message: expect.any(String), where: expect.any(String) });
    expect(answer.error.mend.length).toBeGreaterThan(5);
  });

  test('names the calculations there are when it does not know one', () => {
    const { answer } = answerTo('exposure', { calc: 'doze' });
    expect(answer.error.mend).toMatch(/Did you mean dose\?.*allowedTime, dose, remaining/);
  });

  test('takes the inputs inside "inputs" too, and shows a person units and the caution in 80 columns', () => {
    const inputs = { calc: 'chooseFuse', expectedA: 44, allowedA: 99, family: 'strip-30', alowedA: 3 };
    const file = bench.write('case.json', JSON.stringify({ inputs }));
    const { status, stdout } = bench.kickpanel('compute', 'electrical', file);
    expect(status).toBe(0);
    expect(stdout).toMatch(/fuse +60 A/);
    expect(stdout).toContain('Caution: Fuse within 45 cm of cable from the battery');
    expect(stdout).toContain('Not used: alowedA (did you mean allowedA?)');
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  test('lists topics, and the calculations of one with their inputs', () => {
    const { topics } = JSON.parse(bench.kickpanel('compute', '--json').stdout);
    expect(topics.map(({ name }: { name: string }) => name)).toEqual(expect.arrayContaining(Object.keys(suites)));
    const { calculations } = JSON.parse(bench.kickpanel('compute', 'gains', '--list', '--json').stdout);
    expect(calculations[0]).toMatchObject({
      name: 'targetVolts',
      inputs: [
        { name: 'watt', form: 'number above 0, W' },
        { name: 'ohm', form: 'number above 0, ohm' },
      ],
    });
    expect(bench.kickpanel('compute', 'gain', '--list', '--json').stdout).toContain('Did you mean gains?');
  });

  test.each([[['compute', 'loads', '-']], [['compute', 'loads']]])('reads stdin as %j', (words) => {
    const input = '{"calc":"reFromReading","readingOhm":3.6,"leadOhm":0.2}';
    const { status, stdout } = spawnSync(process.execPath, ['bin/kickpanel', ...words], { input, encoding: 'utf8' });
    expect(status).toBe(0);
    expect(stdout).toMatch(/resistance at 20 C +3\.4/);
    expect(stdout).toContain('Caution: Amplifier unplugged');
  });

  test('lives with ten megabytes, deep nesting, odd names and huge numbers', () => {
    const names = Array.from({ length: 30_000 }, (_, i) => `coil ${'x'.repeat(160)} ${i}`);
    const coils = Object.fromEntries(names.map((name) => [name, 4]));
    const wide = JSON.stringify({ calc: 'networkShares', network: { p: names }, coils });
    expect(wide.length).toBeGreaterThan(9e6);
    expect(answerTo('loads', wide).status).toBe(0);
    const deep = `{"calc":"networkShares","coils":{"A":4},"network":${'{"s":['.repeat(3e5)}"A"${']}'.repeat(3e5)}}`;
    expect(answerTo('loads', deep)).toMatchObject({ status: 2, answer: { error: { code: 'unsupported' } } });
    const odd =
      '{"calc":"networkShares","network":{"s":["__proto__","constructor"]},"coils":{"__proto__":4,"constructor":4}}';
    expect(answerTo('loads', odd)).toMatchObject({ status: 0, answer: { ohm: 8, balanced: true } });
    const huge = { calc: 'supplyDrop', awg: 4, supplyV: 1e308, currentA: 1e200, positiveM: 1e200, negativeM: 1 };
    expect(answerTo('electrical', huge).answer.error.code).toBe('no-solution');
    expect(answerTo('electrical', { ...huge, currentA: 1e308, positiveM: 0, negativeM: 0 }).answer.error.code).toBe(
      'out-of-range',
    );
  });
});

// Plans that nobody would write, held against the rules by the real command: it says what, where and how to mend it, or it
// checks what is left, and it never falls over.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { templatePlan } from '../../src/plan/templates/templates.ts';
import { type Workbench, workbench } from './kickpanel.ts';

let bench: Workbench;
beforeAll(() => {
  bench = workbench();
});
afterAll(() => bench.clear());

const whole = () =>
  structuredClone(templatePlan('seven-channel')) as unknown as Record<string, Record<string, unknown>[]>;
const asFile = (plan: object) => JSON.stringify({ schema: 'kickpanel.plan/1', ...plan });

interface Checked {
  status: number | null;
  answer: {
    error: { code: string; message: string; where: string; mend: string };
    findings: { id: string; message: string }[];
    cannotTell: object[];
    stops: number;
  };
}

let files = 0;
function check(text: string): Checked {
  const file = bench.write(`plan-${files++}.json`, text);
  const { status, stdout, stderr } = bench.kickpanel('job', 'plan', 'check', '--plan', file, '--json');
  expect(stderr).toBe('');
  return { status, answer: JSON.parse(stdout) };
}

/** The first complaint about a plan that must be refused; it says what, where and how to mend it. */
function refused(text: string): { code: string; message: string; where: string; mend: string } {
  const { status, answer } = check(text);
  expect(status).toBe(2);
  const { error } = answer;
  for (const part of ['code', 'message', 'where', 'mend'] as const)
    expect(error[part]).toEqual(expect.stringMatching(/\S/));
  expect(JSON.stringify(answer).length).toBeLessThan(20_000);
  return error;
}

const withField = (kind: string, field: string, value: unknown) => {
  const plan = whole();
  plan[kind][0] = { ...plan[kind][0], [field]: value };
  return asFile(plan);
};

describe('a plan with one field that cannot be', () => {
  test.each([
    ['a negative length', 'run', 'lengthM', -1, 'run[0].lengthM'],
    ['a length of the universe', 'run', 'lengthM', 1e308, 'run[0].lengthM'],
    ['a resonance of nothing', 'driver', 'fsHz', 0, 'driver[0].fsHz'],
    ['a number in words', 'driver', 'xmaxMm', 'much', 'driver[0].xmaxMm'],
    ['a null that says nothing', 'driver', 'thermalW', null, 'driver[0].thermalW'],
    ['a list for a number', 'amplifier', 'efficiency', [0.5], 'amplifier[0].efficiency'],
    ['a note of ten megabytes', 'driver', 'note', 'x'.repeat(1e7), 'driver[0].note'],
    ['a picture for an id', 'driver', 'id', '🚗', 'driver[0].id'],
    ['markup for an id', 'lead', 'id', '<script>alert(1)</script>', 'lead[0].id'],
    ['an id that the language keeps for itself', 'driver', 'id', '__proto__', 'driver[0].id'],
    ['a field that nobody knows', 'driver', 'horsepower', 12, 'driver[0]'],
    [
      'a network without an end',
      'load',
      'network',
      JSON.parse(`${'{"s":['.repeat(900)}"D1/1"${']}'.repeat(900)}`),
      'load[0]',
    ],
    ['a level that no air carries', 'seat', 'pushLevelDba', 400, 'seat[0].pushLevelDba'],
    ['more minutes than a day', 'seat', 'pushMinutes', 1441, 'seat[0].pushMinutes'],
  ])('%s is refused, and its place is named', (_, kind, field, value, place) => {
    expect(refused(withField(kind, field, value)).message).toContain(place);
  });

  test('a number beyond numbers is refused too', () => {
    const text = withField('run', 'lengthM', 12345.25).replace('12345.25', '1e999');
    expect(refused(text).message).toContain('run[0].lengthM');
  });
});

describe('a file that is no plan', () => {
  test.each([
    ['nothing', ''],
    ['a list', '[]'],
    ['a word', '"plan"'],
    ['half a plan', asFile(whole()).slice(0, 2000)],
    ['another form', '{"schema":"kickpanel.track/1"}'],
    ['a plan of the next version', '{"schema":"kickpanel.plan/2"}'],
    ['a list that goes down without end', '['.repeat(100_000)],
    ['kinds of parts that there are not', '{"schema":"kickpanel.plan/1","wheel":[{"id":"W1"}]}'],
    ['parts that are no list', '{"schema":"kickpanel.plan/1","driver":{"id":"D1"}}'],
    ['more parts than any car', asFile({ driver: Array.from({ length: 400 }, (_, n) => ({ id: `D${n}` })) })],
    ['sound', 'RIFF....WAVE'],
  ])('such as %s is refused', (_, text) => {
    refused(text);
  });

  test('two parts of one id are refused, and both kinds named', () => {
    const plan = whole();
    plan.amplifier[0] = { ...plan.amplifier[0], id: 'D1' };
    expect(refused(asFile(plan)).message).toContain('the id D1 is taken already, by the amplifier');
  });

  test('a prototype in the file changes nothing', () => {
    const text = asFile(whole()).replace('{', '{"__proto__":{"polluted":true},"constructor":{},');
    expect(check(text).status).toBe(2);
    const inside = withField('driver', 'coilOhm', 4).replace('"coilOhm":4', '"coilOhm":4,"__proto__":{"reOhm":1}');
    expect([0, 1, 2]).toContain(check(inside).status);
  });
});

describe('a plan that can be entered but not meant', () => {
  test('with markup, pictures and separators for names is checked, and the names come back as they were', () => {
    const name = '"><img src=x onerror=alert(1)> 🚗 ; DROP \u202e\u2028';
    const plan = whole();
    for (const kind of ['driver', 'amplifier', 'place', 'cover'])
      plan[kind] = plan[kind].map((part) => ({ ...part, name }));
    const { status, answer } = check(asFile(plan));
    expect([0, 1]).toContain(status);
    expect(JSON.stringify(answer.findings)).toContain('<img src=x');
  });

  test('that points at itself, in circles and at nothing is checked', () => {
    const plan = whole();
    plan.run = [
      { id: 'R1', from: 'BLOCK', to: 'BLOCK' },
      { id: 'R2', from: 'R2', to: 'nobody' },
    ];
    plan.load = plan.load.map((load) => ({ ...load, network: { s: ['D1/1', 'D1/1', { p: ['D9/9'] }] } }));
    plan.lead = plan.lead.map((lead) => ({ ...lead, from: String(lead.id), to: String(lead.id) }));
    const { status, answer } = check(asFile(plan));
    expect([0, 1]).toContain(status);
    expect(answer.findings.map(({ id }) => id)).toContain('R-01');
  });

  test('with every number at the end of its range is checked, and no number of the answer is lost', () => {
    const sheet = { fsHz: 20_000, qms: 0.01, qes: 100, sdCm2: 0.1, mmsG: 10_000, reOhm: 0.1, xmaxMm: 0.01, leMh: 100 };
    const plan = whole();
    plan.driver = plan.driver.map((driver) => ({ ...driver, ...sheet, thermalW: 50_000, coilOhm: 100 }));
    plan.run = plan.run.map((run) => ({ ...run, areaMm2: 0.05, material: 'unknown', lengthM: 100, bundled: 100 }));
    plan.amplifier = plan.amplifier.map((amplifier) => ({ ...amplifier, efficiency: 0.05, idleA: 5000 }));
    const { status, answer } = check(asFile(plan));
    expect([0, 1]).toContain(status);
    // JSON writes what is no number as null.
    const numbers = JSON.stringify(answer).replaceAll(/"(highPass|lowPass)":null/g, '');
    expect(numbers).not.toMatch(/null|NaN|Infinity/);
  });

  test('with a part of each kind that says nothing but its id lists what it needs', () => {
    const plan = Object.fromEntries(
      Object.entries(whole()).map(([kind, parts]) => [kind, parts.slice(0, 1).map(({ id }) => ({ id }))]),
    );
    delete plan.reading;
    const { status, answer } = check(asFile(plan));
    expect(status).toBe(0);
    expect(answer.stops).toBe(0);
    expect(answer.cannotTell.length).toBeGreaterThan(10);
  });

  test('is said to a person within 80 columns', () => {
    const plan = whole();
    plan.driver = plan.driver.map((driver) => ({ ...driver, name: 'x'.repeat(120) }));
    const { status, stdout } = bench.kickpanel(
      'job',
      'plan',
      'check',
      '--plan',
      bench.write('long.json', asFile(plan)),
    );
    expect([0, 1]).toContain(status);
    expect(stdout).toContain('cannot be told yet');
  });
});

test('the forms of plans, checks and lead lists are in the catalogue of schemas', () => {
  const names = JSON.parse(bench.kickpanel('schema', '--json').stdout).schemas.map(
    ({ name }: { name: string }) => name,
  );
  expect(names).toEqual(expect.arrayContaining(['plan', 'plan-check', 'leads', 'fuses']));
  const { title, type, properties } = JSON.parse(bench.kickpanel('schema', 'plan', '--json').stdout);
  expect({ title, type }).toEqual({ title: 'kickpanel.plan/1', type: 'object' });
  expect(Object.keys(properties)).toContain('driver');
});

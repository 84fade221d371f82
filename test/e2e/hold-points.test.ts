// A job proven from its plan to its covers by the real command: what is open, what closes it, what opens it again, and what
// may be fastened.
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Workbench, workbench } from './kickpanel.ts';

let bench: Workbench;
beforeAll(() => {
  bench = workbench();
});
afterAll(() => bench.clear());

// biome-ignore lint/suspicious/noExplicitAny: answers of every form are looked into
type Answer = any;

function job(...words: string[]): { status: number | null; answer: Answer } {
  const { status, stdout, stderr } = bench.kickpanel(
    'job',
    ...words,
    '--data',
    bench.path('data'),
    '--who',
    'Ann',
    '--json',
  );
  expect(stderr).toBe('');
  return { status, answer: JSON.parse(stdout) };
}

const stateOf = (id: string) =>
  job('hold-points', '7').answer.holdPoints.find((point: { id: string }) => point.id === id).state;

test('nothing is closed by the tool, a wrong reading closes nothing, and a cover is fastened by name or by proof', () => {
  expect(job('new', 'Seven channels', '--number', '7', '--body', 'hatchback').status).toBe(0);
  expect(job('plan', 'template', '7', 'seven-channel').status).toBe(0);
  expect(job('hold-points', '7').answer.counts).toMatchObject({ closed: 0 });
  expect(job('cover', '7', 'door-left', 'off').status).toBe(0);

  const refused = job('cover', '7', 'door-left', 'fastened');
  expect(refused).toMatchObject({ status: 1, answer: { set: false, appended: [] } });
  expect(refused.answer.open).toHaveLength(4);
  expect(refused.answer.shortest.tests.map(({ kind }: { kind: string }) => kind)).toEqual(['near-walk', 'meter']);

  expect(job('evidence', '7', 'load N5 coils', '--measured', '7', '--unit', 'ohm').status).toBe(1);
  expect(stateOf('load N5 coils')).toBe('open');
  expect(job('evidence', '7', 'load N5 coils', '--measured', '3.3', '--unit', 'ohm').status).toBe(0);
  const walked = ['lead L15 connected', 'channel C5 reaches', 'driver D5 polarity'];
  expect(job('evidence', '7', ...walked, '--seen', '--by', 'Ben').status).toBe(0);
  expect(job('cover', '7', 'door-left', 'fastened')).toMatchObject({ status: 0, answer: { set: true } });

  // Another driver is behind the door now: all that was proven of it was proven of the old one.
  const other = '{"kind":"midbass","coils":1,"coilOhm":4,"reOhm":3.6,"thermalW":60,"place":"P5"}';
  expect(job('plan', 'set', '7', 'driver', 'D5', other).status).toBe(0);
  for (const id of [...walked, 'load N5 coils']) expect(stateOf(id)).toBe('re-opened');
  const check = job('plan', 'check', '7');
  expect(check.answer.findings.filter(({ id }: { id: string }) => id === 'P-01')).toMatchObject([
    { place: 'cover door-left' },
  ]);

  expect(job('cover', '7', 'door-left', 'resting').status).toBe(0);
  const over = job('cover', '7', 'B', 'fastened', '--by', 'Ben', '--why', 'The owner needs it tonight.');
  expect(over.answer.appended[0].data.passedOver).toMatchObject({ name: 'Ben', why: 'The owner needs it tonight.' });
  expect(over.answer.appended[0].data.passedOver.open[0].holdPoints).toHaveLength(4);
  expect(job('verify', '7')).toMatchObject({ status: 0, answer: { whole: true } });
});

test('the gain sheet goes from plan to reading', () => {
  job('new', 'Gains', '--number', '8');
  job('plan', 'template', '8', 'two-way-front');
  const [first] = job('gains', '8').answer.channels;
  expect(first).toMatchObject({ holdPoint: 'gain A/1 set', verdict: 'not-measured' });
  const { targetV } = first.reading;
  expect(job('evidence', '8', 'gain A/1 set', '--measured', String(targetV), '--unit', 'V').status).toBe(0);
  expect(job('gains', '8').answer.channels[0]).toMatchObject({
    verdict: 'within',
    state: 'closed',
    measured: { offDb: 0 },
  });
});

test('every form has its schema, and the help shows a call of each', () => {
  for (const name of ['hold-points', 'cover', 'evidence', 'gains']) {
    const { status, stdout } = bench.kickpanel('schema', name);
    expect([name, status, JSON.parse(stdout).title]).toEqual([name, 0, `kickpanel.${name}/1`]);
    expect(bench.kickpanel('job', '--help').stdout).toContain(`kickpanel job ${name} 0412`);
  }
});

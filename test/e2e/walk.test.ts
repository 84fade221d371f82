// The channel walk by the real command.
import { resolve } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Workbench, workbench } from './kickpanel.ts';

let bench: Workbench;
beforeAll(() => {
  bench = workbench();
});
afterAll(() => bench.clear());

test('answers with the explanations that tie and the test that tells them apart', () => {
  const { status, stdout } = bench.kickpanel('walk', resolve('examples/walk.json'), '--json');
  expect(status).toBe(0);
  const answer = JSON.parse(stdout);
  // Two doors exchanged in either layer, and one of them turned over at its output or at its lead.
  expect(answer).toMatchObject({ schema: 'kickpanel.walk/1', minCost: 20, unexplained: false });
  expect(answer.explanations).toHaveLength(4);
  expect(answer.explanations[0].faults).toEqual(['invert:out4', 'swap:signal:amp3+amp4']);
  expect(answer.nextTests[0]).toMatchObject({ test: 'view-setting:out4', valueBits: 1, cost: 1 });
});

test('says it to a person in 80 columns, the caution with it', () => {
  const { status, stdout } = bench.kickpanel('walk', resolve('examples/walk.json'));
  expect(status).toBe(0);
  expect(stdout).toContain('Test next: view-setting:out4');
  expect(stdout).toContain('Caution:');
  expect(stdout.split('\n').filter((line) => [...line].length > 80)).toEqual([]);
});

test('ends with status 1 where nothing explains what was heard, and with 2 where the file contradicts itself', () => {
  const output = { id: 'out1', in1: 1, in2: 0, amp: 'amp1', place: 'left door' };
  const other = { ...output, id: 'out2', amp: 'amp2', place: 'right door' };
  const heard = [{ place: 'left door' }, { place: 'right door' }];
  const walk = (outputs: object[]) =>
    JSON.stringify({ plan: { outputs }, observations: [{ side: 'both', outputs: ['out1'], heard }] });
  expect(bench.kickpanel('walk', bench.write('odd.json', walk([output, other])), '--json').status).toBe(1);
  const refused = bench.kickpanel('walk', bench.write('twice.json', walk([output, output])), '--json');
  expect(refused.status).toBe(2);
  expect(JSON.parse(refused.stdout).error).toMatchObject({ code: 'walk-contradicts-itself' });
});

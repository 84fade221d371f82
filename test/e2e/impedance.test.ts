// `impedance` as a person and a script meet it: recordings of a simulated bench, read by the real command.
import { afterAll, expect, test } from 'vitest';
import { impedanceAnswerSchema } from '../../src/cli/schemas/impedance.ts';
import { writeWav } from '../../src/signals/wav/write-wav.ts';
import { type Bench, definedBy, simulatedTake, woofer } from '../impedance/simulated-take.ts';
import { workbench } from './kickpanel.ts';

const bench = workbench();
afterAll(() => bench.clear());

const usual: Bench = { driver: woofer, seriesOhm: 10, noise: 0.0003 };

function wav(name: string, channels: Float64Array[]): string {
  return bench.write(name, writeWav({ channels, rateHz: 48_000, format: '24' }));
}

const { sourceV, driverV } = simulatedTake(usual);
const both = wav('both.wav', [sourceV, driverV]);

const plan = bench.write(
  'plan.json',
  JSON.stringify({
    schema: 'kickpanel.plan/1',
    driver: [
      { id: 'D1', coils: 1, reOhm: 3.3, fsHz: 62, qms: 5.4, qes: 0.66, qts: 0.588 },
      { id: 'D2', coils: 1, reOhm: 3.3, fsHz: 48, qms: 5.4, qes: 0.4, qts: 0.372 },
    ],
  }),
);

function answerTo(...words: string[]) {
  const { status, stdout, stderr } = bench.kickpanel('impedance', ...words, '--json');
  const answer = JSON.parse(stdout);
  if (status !== 2) expect(impedanceAnswerSchema.parse(answer)).toEqual(answer);
  return { status, answer, stderr };
}

test('one recording of both voltages gives the driver, its curve and what the plan makes of it', () => {
  const { status, answer, stderr } = answerTo(both, '--resistor', '10', '--plan', plan, '--driver', 'D1');
  expect([status, stderr]).toEqual([0, '']);
  expect(answer.schema).toBe('kickpanel.impedance/1');
  const { fsHz, qts } = definedBy(woofer);
  expect(answer.driver.fsHz / fsHz).toBeCloseTo(1, 2);
  expect(answer.driver.qts / qts).toBeCloseTo(1, 2);
  expect(answer.driver.reOhm).toBeCloseTo(3.3, 1);
  expect(answer.againstPlan.verdict).toBe('agrees');
  expect(answer.curve.fHz.length).toBe(answer.curve.ohm.length);
  expect(answerTo(both, '--resistor', '10', '--plan', plan, '--driver', 'D2').answer.againstPlan).toMatchObject({
    verdict: 'differs',
    says: expect.stringMatching(/higher than the plan says/),
  });
});

test('two recordings one after the other give the same; the curve goes into a table', () => {
  const first = wav('first.wav', [sourceV]);
  const second = wav('second.wav', [simulatedTake({ ...usual, waitS: 0.9, seed: 4 }).driverV]);
  const { status, answer } = answerTo(first, '--resistor', '10', '--driver-take', second, '--csv', 'curve.csv');
  expect(status).toBe(0);
  expect(answer.driver.qts / definedBy(woofer).qts).toBeCloseTo(1, 2);
  expect(answer.againstPlan).toBeUndefined();
});

test('a person reads resonance, Qs and what differs in words', () => {
  const { status, stdout } = bench.kickpanel('impedance', both, '--resistor', '10', '--plan', plan, '--driver', 'D2');
  expect(status).toBe(0);
  expect(stdout).toMatch(/Resonance +62 Hz/);
  expect(stdout).toMatch(/Total Q +0\.59/);
  expect(stdout).toMatch(/plan 48\.0 Hz, measured 62\.0 Hz \(\+29 %\)/);
});

test('what cannot be read is a refusal with a way out, what is wrong with the call ends with 2', () => {
  const swapped = answerTo(both, '--resistor', '10', '--source-input', '2', '--driver-input', '1');
  expect([swapped.status, swapped.answer.usable, swapped.answer.problem.code]).toEqual([1, false, 'inputs-swapped']);
  const clipped = wav('clipped.wav', [sourceV.map((value) => Math.max(-1, Math.min(1, 3 * value))), driverV]);
  expect(answerTo(clipped, '--resistor', '10').answer.problem.code).toBe('clipped');
  const codes = [
    ['--resistor', '10'],
    [both],
    [both, '--resistor', 'ten'],
    [both, '--resistor', '10', '--plan', plan],
    [both, '--resistor', '10', '--plan', plan, '--driver', 'D3'],
    [wav('mono.wav', [sourceV]), '--resistor', '10'],
    ['nothing.wav', '--resistor', '10'],
  ].map((words) => {
    const { status, answer } = answerTo(...words);
    return [status, answer.error?.code];
  });
  expect(codes).toEqual([
    [2, 'argument-missing'],
    [2, 'option-missing'],
    [2, 'bad-option-value'],
    [2, 'option-missing'],
    [2, 'unknown-driver'],
    [2, 'input-missing'],
    [2, 'file-not-found'],
  ]);
});

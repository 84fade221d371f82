// `noise` as a person and a script meet it: takes of a simulated car, read by the real command.
import { afterAll, expect, test } from 'vitest';
import { noiseAnswerSchema } from '../../src/cli/schemas/noise.ts';
import { writeWav } from '../../src/signals/wav/write-wav.ts';
import { alternatorTones, type NoiseRecipe, simulatedNoise } from '../noise-hunt/simulated-noise.ts';
import { workbench } from './kickpanel.ts';

const bench = workbench();
afterAll(() => bench.clear());

function wav(name: string, recipe: NoiseRecipe): string {
  const channels = [simulatedNoise({ ...recipe, rateHz: 16_000 })];
  return bench.write(name, writeWav({ channels, rateHz: 16_000, format: '24' }));
}

const ripple = (rpm: number, seed: number) => ({
  seed,
  tones: [{ fHz: alternatorTones(rpm, 2.6, 6).rippleHz, rms: 6e-4 }],
});
const off = wav('off.wav', { seed: 1 });
const idle = wav('idle.wav', ripple(820, 2));
const revs = wav('revs.wav', ripple(2150, 3));
const whine = ['--off', off, '--idle', idle, '--idle-rpm', '820', '--revs', revs, '--revs-rpm', '2150'];

function answerTo(...words: string[]) {
  const { status, stdout, stderr } = bench.kickpanel('noise', ...words, '--json');
  const answer = JSON.parse(stdout);
  if (status !== 2) expect(noiseAnswerSchema.parse(answer)).toEqual(answer);
  return { status, answer, stderr };
}

test('two speeds tell the alternator’s whine, and each answer leads on', () => {
  const { status, answer, stderr } = answerTo(...whine);
  expect([status, stderr]).toEqual([0, '']);
  expect(answer.tones.map((tone: { class: string }) => tone.class)).toEqual(['alternator ripple']);
  expect(answer.tones[0].order).toBeCloseTo(93.6, 1);
  expect(answer.next.test).toBe('sourceUnplugged');
  const tried = answerTo(
    ...whine,
    '--tried',
    'source-unplugged=no,follows-volume=no,free-lead=yes,ground-difference-mv=14',
  );
  expect(tried.answer.next).toMatchObject({ entry: 'ground loop', test: null });
  expect(tried.answer.next.reason).toContain('14 mV');
  expect(answerTo('--idle', idle, '--revs', revs).answer.tones[0].class).toBe('cannot tell');
});

test('a person reads the verdict first, then tones, the next test, and what can hurt', () => {
  const { status, stdout } = bench.kickpanel('noise', ...whine);
  expect(status).toBe(0);
  expect(stdout).toMatch(/^One tone climbs with the engine/);
  expect(stdout).toMatch(/1279\.\d +3354\.\d +93\.\d +alternator ripple/);
  expect(stdout).toMatch(/Next\n +Unplug the source/);
  expect(stdout).toMatch(/Caution: The engine runs: bay door open/);
  expect(stdout).toMatch(/--tried source-unplugged=yes/);
  expect(stdout).toMatch(/levels at the ear: Levels are relative/);
});

test('pops over turning on are listed with time and level', () => {
  const on = wav('on.wav', { seed: 5, pops: [{ atS: 2.5, peak: 0.1 }] });
  const { answer } = answerTo('--turn-on', on, '--spl', '110');
  expect(answer.pops).toHaveLength(1);
  expect(answer.pops[0].atS).toBeCloseTo(2.5, 1);
  expect(answer.next.test).toBe('popAmplifierShorted');
  expect(answerTo('--turn-on', on, '--tried', 'pop-amplifier-shorted=no').answer.next.next).toMatch(/1 to 3 s/);
});

test('takes that carry nothing end with 1, what is wrong with the call with 2', () => {
  const short = answerTo('--off', wav('short.wav', { seconds: 2 }));
  expect([short.status, short.answer.takes[0].problem.code]).toEqual([1, 'too-short']);
  const codes = [
    [],
    [off],
    ['--off', 'nothing.wav'],
    ['--idle', idle, '--idle-rpm', 'fast'],
    ['--off', off, '--revs-rpm', '2000'],
    ['--idle', idle, '--idle-rpm', '820', '--revs', revs, '--revs-rpm', '830'],
    ['--off', off, '--input', '2'],
    ['--off', off, '--tried', 'source-unpluged=yes'],
    ['--off', off, '--tried', 'source-unplugged=maybe'],
    ['--off', off, '--heard', 'rattle'],
  ].map((words) => {
    const { status, answer } = answerTo(...words);
    return [status, answer.error?.code];
  });
  expect(codes).toEqual([
    [2, 'no-take'],
    [2, 'too-many-arguments'],
    [2, 'file-not-found'],
    [2, 'bad-option-value'],
    [2, 'option-missing'],
    [2, 'speeds-too-close'],
    [2, 'input-missing'],
    [2, 'bad-answer'],
    [2, 'bad-answer'],
    [2, 'bad-option-value'],
  ]);
});

test('the schema of the answer is printed', () => {
  const { status, stdout } = bench.kickpanel('schema', 'noise');
  expect(status).toBe(0);
  expect(JSON.parse(stdout).title).toBe('the answer of noise');
});

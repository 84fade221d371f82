// A call at its far end by the real command: both ways in one file, or one file each.
import { writeFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { gauss, uniform } from '../../src/base/random.ts';
import { handsFreeAnswerSchema } from '../../src/cli/schemas/hands-free.ts';
import { writeWav } from '../../src/signals/wav/write-wav.ts';
import { type Workbench, workbench } from './kickpanel.ts';

const RATE_HZ = 8000;
let bench: Workbench;
beforeAll(() => {
  bench = workbench();
  const write = (name: string, ...channels: Float64Array[]) =>
    writeFileSync(bench.path(name), writeWav({ channels, rateHz: RATE_HZ, format: '16' }));
  // Words of a fifth of a second and pauses of any length.
  const said = new Float64Array(15 * RATE_HZ);
  for (let at = 0, n = 0; at < said.length; at += Math.round(RATE_HZ * (0.25 + 0.4 * uniform(3, n))), n++) {
    for (let i = 0; i < 0.2 * RATE_HZ && at + i < said.length; i++) said[at + i] = 0.2 * gauss(1, at + i);
  }
  const back = said.map((_, n) => 0.05 * (said[n - 0.24 * RATE_HZ] ?? 0) + 0.0005 * gauss(2, n));
  write('call.wav', said, back);
  write('said.wav', said);
  write('back.wav', back);
});
afterAll(() => bench.clear());

test('says that the far end hears itself, how late and how loud, from one file or two', () => {
  for (const files of [['call.wav'], ['said.wav', 'back.wav']]) {
    const { status, stdout } = bench.kickpanel('hands-free', ...files, '--json');
    const echo = handsFreeAnswerSchema.parse(JSON.parse(stdout));
    expect([status, echo.status]).toEqual([1, 'echo']);
    expect(Math.abs((echo.delayMs ?? 0) - 240)).toBeLessThanOrEqual(10);
    expect(echo.lossDb).toBeCloseTo(-20 * Math.log10(0.05), 0);
  }
  expect(bench.kickpanel('hands-free', 'call.wav').stdout).toMatch(/^The far end hears itself: 2[34]\d ms late/);
});

test('refuses what it cannot read', () => {
  const code = (...words: string[]) => {
    const { status, stdout } = bench.kickpanel('hands-free', ...words, '--json');
    return [status, JSON.parse(stdout).error.code];
  };
  expect(code()).toEqual([2, 'argument-missing']);
  expect(code('said.wav')).toEqual([2, 'no-such-input']);
  expect(code('none.wav')).toEqual([2, 'file-not-found']);
  expect(code('call.wav', '--gain', 'loud')).toEqual([2, 'bad-option-value']);
});

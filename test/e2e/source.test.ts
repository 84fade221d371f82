// A factory source by the real command: two outputs recorded at once, at two volumes.
import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { gauss } from '../../src/base/random.ts';
import { sourceAnswerSchema } from '../../src/cli/schemas/source.ts';
import { byteSourceFromArray } from '../../src/signals/recording.ts';
import { readWav } from '../../src/signals/wav/read-wav.ts';
import { writeWav } from '../../src/signals/wav/write-wav.ts';
import { type Workbench, workbench } from './kickpanel.ts';

let bench: Workbench;
beforeAll(() => {
  bench = workbench();
  const made = bench.kickpanel('track', 'sweep', '--out', 'sweep.wav', '--seconds', '1', '--level', '-12');
  expect(made.status).toBe(0);
  const wav = readWav(byteSourceFromArray(readFileSync(bench.path('sweep.wav'))));
  if (!wav.ok) throw new Error(wav.issues[0].message);
  const { recording } = wav.value;
  const played = new Float64Array(recording.frames);
  recording.readChannel(0, 0, recording.frames, played);
  // The second output is half as loud and a millisecond late.
  const late = (gain: number): Float64Array => played.map((_, n) => 0.5 * gain * (played[n - 48] ?? 0));
  for (const [name, gain] of [
    ['low.wav', 0.1],
    ['high.wav', 0.4],
  ] as const) {
    // A recorder's own noise: sound without any would be the played file itself.
    const noisy = (wave: Float64Array, seed: number) => wave.map((x, n) => x + 2e-5 * gauss(seed, n));
    const channels = [
      noisy(
        played.map((x) => gain * x),
        1,
      ),
      noisy(late(gain), 2),
    ];
    writeFileSync(bench.path(name), writeWav({ channels, rateHz: 48_000, format: '24' }));
  }
});
afterAll(() => bench.clear());

const call = ['source', '--track', 'sweep.track.json'];

test('tells levels, the delay between outputs and what their sum loses', () => {
  const { status, stdout } = bench.kickpanel(...call, 'left,right@10=low.wav', 'left,right@20=high.wav', '--json');
  const answer = sourceAnswerSchema.parse(JSON.parse(stdout));
  expect(status).toBe(1);
  const [left, right] = answer.outputs;
  expect(left.steps.map(({ levelDb }) => Math.round(levelDb ?? 0))).toEqual([-20, -8]);
  expect((left.steps[0].levelDb ?? 0) - (right.steps[0].levelDb ?? 0)).toBeCloseTo(6.02, 1);
  expect([left.delayMs, right.delayMs].map((ms) => Number(ms?.toFixed(2)))).toEqual([0, 1]);
  expect(answer.findings.map(({ what }) => what)).toEqual(['delay', 'sum', 'sum']);
});

test('says it to a person in 80 columns', () => {
  const { stdout } = bench.kickpanel(...call, 'left,right@10=low.wav');
  expect(stdout).toContain('the whole band; fed by both; 1.00 ms late');
  expect(stdout).toContain('Can be undone');
  expect(stdout.split('\n').filter((line) => [...line].length > 80)).toEqual([]);
});

test('refuses what it cannot know', () => {
  const codes = (...words: string[]) => {
    const { status, stdout } = bench.kickpanel(...words, '--json');
    expect(status).toBe(2);
    return JSON.parse(stdout).error.code;
  };
  expect(codes('source', 'left@1=low.wav')).toBe('option-missing');
  expect(codes(...call)).toBe('argument-missing');
  expect(codes(...call, 'left=low.wav')).toBe('bad-take');
  expect(codes(...call, 'left,left@1=low.wav')).toBe('bad-take');
  expect(codes(...call, 'a,b,c@1=low.wav')).toBe('inputs-differ');
  expect(codes(...call, 'a,-@1=low.wav', 'a@1=high.wav')).toBe('output-twice');
  expect(codes(...call, 'a@one=low.wav')).toBe('bad-option-value');
});

// The practice bay and the near-field walk by the real command: planted, recorded, found.
import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { nearWalkAnswerSchema } from '../../src/cli/schemas/near-walk.ts';
import { byteSourceFromArray } from '../../src/signals/recording.ts';
import { readWav } from '../../src/signals/wav/read-wav.ts';
import { writeWav } from '../../src/signals/wav/write-wav.ts';
import { type Workbench, workbench } from './kickpanel.ts';

let bench: Workbench;
let takes: string[];
beforeAll(() => {
  bench = workbench();
  const words = ['practice', 'near', '--seed', '17', '--faults', '1', '--seconds', '1', '--out', 'bay', '--json'];
  const { status, stdout } = bench.kickpanel(...words);
  expect(status).toBe(0);
  takes = JSON.parse(stdout).takes.map(({ place, file }: { place: string; file: string }) => `${place}=${file}`);
});
afterAll(() => bench.clear());

const files = ['--plan', 'bay/plan.json', '--track', 'bay/near.track.json'];

test('names the fault that the bay planted, and the test that tells its two causes apart', () => {
  const truth = JSON.parse(readFileSync(bench.path('bay/truth.json'), 'utf8'));
  expect(truth.faults).toEqual(['reversed:speaker:front right tweeter']);
  const { status, stdout } = bench.kickpanel('nearwalk', ...files, ...takes, '--json');
  expect(status).toBe(0);
  const answer = nearWalkAnswerSchema.parse(JSON.parse(stdout));
  expect(answer.explanations.map(({ faults }) => faults)).toEqual([['invert:out2'], truth.faults]);
  expect(answer.nextTests[0].test).toBe('view-setting:out2');
});

test('says it to a person in 80 columns', () => {
  const { status, stdout } = bench.kickpanel('nearwalk', ...files, ...takes);
  expect(status).toBe(0);
  expect(stdout).toContain('front right tweeter: DIFFERS');
  expect(stdout).toContain('Caution:');
  expect(stdout.split('\n').filter((line) => [...line].length > 80)).toEqual([]);
});

test('one long recording with a stop at each driver says the same; its places must be as many as its plays', () => {
  const sounds = takes.slice(0, 3).map((take) => {
    const wav = readWav(byteSourceFromArray(readFileSync(bench.path(take.slice(take.indexOf('=') + 1)))));
    if (!wav.ok) throw new Error(wav.issues[0].message);
    const { recording } = wav.value;
    const samples = new Float64Array(recording.frames);
    recording.readChannel(0, 0, recording.frames, samples);
    return { samples, rateHz: recording.rateHz };
  });
  const [{ rateHz }] = sounds;
  const long = Float64Array.from(sounds.flatMap(({ samples }) => [...samples]));
  writeFileSync(bench.path('long.wav'), writeWav({ channels: [long], rateHz, format: '24' }));
  const places = takes.slice(0, 3).map((take) => take.slice(0, take.indexOf('=')));
  const answerTo = (...words: string[]) => JSON.parse(bench.kickpanel('nearwalk', ...files, ...words, '--json').stdout);
  const together = answerTo(`${places[0]},-,${places[2]}=long.wav`);
  const apart = answerTo(takes[0], takes[2]);
  const told = ({ places: read }: typeof apart) =>
    read.map(({ place, side, verdict }: Record<string, string>) => [place, side, verdict]);
  expect(told(together)).toEqual(told(apart));
  const { error } = answerTo(`${places[0]},${places[1]}=long.wav`);
  expect(error.code).toBe('stops-differ');
  expect(error.message).toMatch(
    /^The recording holds 3 whole plays of the track, begun at 0:0\d, .*; the call names 2 places\.$/,
  );
});

test('refuses what it cannot know: no plan, no such place, a place twice', () => {
  const codes = (...words: string[]) => {
    const { status, stdout } = bench.kickpanel('nearwalk', ...words, '--json');
    expect(status).toBe(2);
    const { error } = JSON.parse(stdout);
    return [error, ...(error.issues ?? [])].map(({ code }) => code);
  };
  expect(codes('--track', 'bay/near.track.json', takes[0])).toContain('option-missing');
  expect(codes(...files, 'front left tweter=bay/front-left-tweeter.wav')).toEqual(['unknown-place']);
  expect(codes(...files, takes[0], takes[0])).toEqual(['place-twice']);
  expect(codes(...files)).toEqual(['argument-missing']);
});

test('a take at the seat comes with a track that reads it and the truth', () => {
  expect(bench.kickpanel('practice', 'take', '--seed', '3', '--place', 'mid-left', '--out', 'mid.wav').status).toBe(0);
  const truth = JSON.parse(readFileSync(bench.path('mid.truth.json'), 'utf8'));
  const { status, stdout } = bench.kickpanel('read', 'mid.wav', '--track', 'mid.track.json', '--json');
  expect(status).toBe(0);
  const reading = JSON.parse(stdout);
  expect(reading.polarity.sign).toBe(truth.stimuli[0].polaritySign);
  expect(Math.abs(reading.quality.driftPpm - truth.driftPpm)).toBeLessThan(0.5);
});

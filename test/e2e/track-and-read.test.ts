// A track made by the real command, and takes read by it: the whole way through files.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, statSync, truncateSync } from 'node:fs';
import { resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { errorSchema } from '../../src/cli/schemas/error.ts';
import { readAnswerSchema } from '../../src/cli/schemas/read.ts';
import { trackSchema } from '../../src/signals/track.ts';
import { type Workbench, workbench } from './kickpanel.ts';

const wav = resolve('examples/door.wav');
const track = resolve('examples/door.track.json');
const truth = JSON.parse(readFileSync('examples/door.truth.json', 'utf8'));

let bench: Workbench;
beforeAll(() => {
  bench = workbench();
});
afterAll(() => bench.clear());

/** The one error of a call that must be refused, and nothing on stderr. */
function refusal(...words: string[]) {
  const { status, stdout, stderr } = bench.kickpanel(...words, '--json');
  expect(status).toBe(2);
  expect(stderr).toBe('');
  return errorSchema.parse(JSON.parse(stdout)).error;
}

describe('track', () => {
  test('writes a track, and a description that holds against the schema it prints', () => {
    const made = bench.kickpanel('track', 'sweep', '--out', 'a.wav', '--side', 'left', '--from', '100', '--json');
    expect(made.status).toBe(0);
    expect(made.stderr).toBe('');
    JSON.parse(made.stdout);
    const description = JSON.parse(readFileSync(bench.path('a.track.json'), 'utf8'));
    const parsed = trackSchema.parse(description);
    expect(statSync(bench.path('a.wav')).size).toBeGreaterThan(6 * parsed.durationS * parsed.rateHz - 12);
  });
});

describe('read', () => {
  const json = () => bench.kickpanel('read', wav, '--track', track, '--json');

  test('answers with one object that holds against its schema and is near the truth', () => {
    const { status, stdout, stderr } = json();
    expect(stderr).toBe('');
    expect(status).toBe(0);
    const reading = readAnswerSchema.parse(JSON.parse(stdout));
    expect(reading.quality.usable).toBe(true);
    expect(reading.quality.driftPpm).toBeCloseTo(truth.driftPpm, 0);
    expect(reading.quality.startS).toBeCloseTo(truth.startS, 3);
    expect(Math.abs((reading.arrivalS ?? 1) - truth.arrivalS)).toBeLessThan(0.2e-3);
    expect(reading.polarity?.sign).toBe(truth.polaritySign);
  });

  test('answers the same, byte for byte, every time', () => {
    expect(json().stdout).toBe(json().stdout);
  });

  test('says it to a person in 80 columns, in plain ASCII or in UTF-8', () => {
    const plain = bench.kickpanelIn({ LANG: 'C' }, 'read', wav, '--track', track);
    expect(plain.status).toBe(0);
    expect(plain.stderr).toBe('');
    for (const line of plain.stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    expect([...plain.stdout].every((character) => character <= '~')).toBe(true);
    expect(plain.stdout).toContain('Response (dB, recorded over played');
    const rich = bench.kickpanelIn({ LANG: 'C.UTF-8' }, 'read', wav, '--track', track);
    expect(rich.stdout).toMatch(/[\u2800-\u28ff]{3}/);
    expect(rich.stdout).not.toContain('\u001b');
  });

  test('writes table and impulse response where asked', () => {
    const words = ['--csv', 'out.csv', '--impulse', 'out.wav', '--json'];
    const { status, stdout } = bench.kickpanel('read', wav, '--track', track, ...words);
    expect(status).toBe(0);
    const reading = JSON.parse(stdout);
    const lines = readFileSync(bench.path('out.csv'), 'utf8').trim().split('\n');
    expect(lines.length - 1).toBeGreaterThanOrEqual(reading.response.fHz.length);
    expect(reading.written).toEqual(['out.csv', 'out.wav']);
    expect(readFileSync(bench.path('out.wav')).subarray(0, 4).toString()).toBe('RIFF');
  });

  test('reads a recording without its end as a refusal: status 1, and what to do now', () => {
    const cut = bench.write('cut.wav', readFileSync(wav));
    truncateSync(cut, 2 * Math.floor(statSync(wav).size * 0.275));
    const { status, stdout } = bench.kickpanel('read', cut, '--track', track);
    expect(status).toBe(1);
    expect(stdout).toContain('What to do now');
    const answer = readAnswerSchema.parse(JSON.parse(bench.kickpanel('read', cut, '--track', track, '--json').stdout));
    expect(answer.quality.usable).toBe(false);
    expect(answer.quality.problems.map(({ code }) => code)).toContain('truncated');
    expect(answer.response).toBeUndefined();
    expect(answer.fileNotes?.map(({ code }) => code)).toEqual(['data-cut-short']);
  });

  test('writes no file for a refusal, and says so', () => {
    const silent = bench.write('silent.wav', readFileSync(wav).fill(0, 44));
    const { status, stdout } = bench.kickpanel('read', silent, '--track', track, '--csv', 'none.csv');
    expect(status).toBe(1);
    expect(stdout).toContain('none.csv');
    expect(existsSync(bench.path('none.csv'))).toBe(false);
  });

  test('leaves no file behind when it is interrupted', async () => {
    const child = spawn(process.execPath, [
      resolve('bin/kickpanel'),
      'read',
      wav,
      '--track',
      track,
      '--csv',
      bench.path('i.csv'),
    ]);
    setTimeout(() => child.kill('SIGINT'), 150);
    const [, signal] = await once(child, 'exit');
    expect(signal).toBe('SIGINT');
    expect(existsSync(bench.path('i.csv'))).toBe(false);
  });
});

describe('read refuses, and says what, where and how to mend it:', () => {
  test.each([
    ['no words at all', [], 'argument-missing'],
    ['no track', [wav], 'option-missing'],
    ['two recordings', [wav, wav, '--track', track], 'too-many-arguments'],
    ['a recording that is not there', ['no.wav', '--track', track], 'file-not-found'],
    ['a folder', ['.', '--track', track], 'not-a-file'],
    ['a track that is not there', [wav, '--track', 'no.track.json'], 'file-not-found'],
    ['a sound file as the track', [wav, '--track', wav], 'not-json'],
    ['a description as the recording', [track, '--track', track], 'not-a-wav'],
    ['an input the file does not have', [wav, '--track', track, '--input', '2'], 'no-such-input'],
    ['a band upside down', [wav, '--track', track, '--band', '2000-100'], 'bad-option-value'],
    ['a smoothing that is none', [wav, '--track', track, '--smooth', '1/0'], 'bad-option-value'],
    ['a window without an end', [wav, '--track', track, '--expect-arrival', '3'], 'bad-option-value'],
    ['a calibration that is not there', [wav, '--track', track, '--mic-calibration', 'mic.txt'], 'file-not-found'],
    ['an option it does not know', [wav, '--track', track, '--smoth', '1/6'], 'unknown-option'],
    ['a table in a folder that is not there', [wav, '--track', track, '--csv', 'no/out.csv'], 'folder-not-found'],
  ])('%s', (_, words, code) => {
    const error = refusal('read', ...words);
    expect(error.code).toBe(code);
    expect(error.message).toMatch(/\.$/);
    expect(error.mend).toBeTruthy();
  });

  test('everything that is wrong with the files at once', () => {
    const bad = bench.write('bad.track.json', '{"schema":"kickpanel.track/1"}');
    const { issues = [] } = refusal('read', 'no.wav', '--track', bad);
    expect(issues.map(({ code }) => code)).toEqual(['file-not-found', ...Array(5).fill('field-missing')]);
  });
});

describe('schema', () => {
  test('prints every schema it lists as JSON Schema', () => {
    const { schemas } = JSON.parse(bench.kickpanel('schema', '--json').stdout);
    expect(schemas.map(({ name }: { name: string }) => name)).toEqual(
      expect.arrayContaining(['track', 'read', 'error']),
    );
    for (const { name } of schemas) {
      const schema = JSON.parse(bench.kickpanel('schema', name).stdout);
      expect(schema).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema', type: 'object' });
      expect(bench.kickpanel('schema', name, '--json').stdout).toBe(`${JSON.stringify(schema)}\n`);
    }
  });
});

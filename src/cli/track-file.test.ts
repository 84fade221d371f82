import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readTrackFile } from './track-file.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kickpanel-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const marker = { kind: 'marker', side: 'right', startS: 1, durationS: 0.08, fromHz: 4000, toHz: 12000, levelDbfs: -18 };
const sweep = { kind: 'sweep', side: 'left', startS: 2, durationS: 6, fromHz: 20, toHz: 20000, levelDbfs: -12 };
const track = {
  schema: 'kickpanel.track/1',
  kind: 'sweep',
  rateHz: 48000,
  channels: 2,
  durationS: 9,
  segments: [{ kind: 'silence', startS: 0, durationS: 1 }, marker, sweep],
};

/** The complaints about a file with this content, as one line each. */
function complaints(content: unknown): string[] {
  const path = join(folder, 'a.track.json');
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  const read = readTrackFile(path);
  return read.ok ? [] : read.issues.map(({ code, where, message }) => `${code} ${where?.replace(path, '')} ${message}`);
}

describe('readTrackFile', () => {
  test('takes a description as it was written, with a byte order mark too', () => {
    expect(complaints(track)).toEqual([]);
    expect(complaints(`\ufeff${JSON.stringify(track)}`)).toEqual([]);
  });

  test('takes a track of markers alone: a pair is read by them', () => {
    expect(complaints({ ...track, segments: [marker] })).toEqual([]);
  });

  test('keeps fields and kinds it does not know', () => {
    const path = join(folder, 'b.track.json');
    const more = {
      ...track,
      colour: 'blue',
      segments: [sweep, { kind: 'applause', startS: 8, durationS: 1, hands: 2 }],
    };
    writeFileSync(path, JSON.stringify(more));
    expect(readTrackFile(path)).toEqual({ ok: true, value: more });
  });

  test.each([
    ['no JSON', '{"schema": x}', ['not-json  This is not JSON.']],
    ['half a file', '{"schema":\n"kick', ['not-json  This is not JSON (line 2, column 6).']],
    ['nothing', '  \n', ['not-json  The file is empty.']],
    ['a WAV', 'RIFF....WAVE', ['not-json  This is a sound file, not a track description (F.track.json).']],
    ['a list', [], ['field-invalid  The content must be an object, got a list.']],
    ['another schema', { ...track, schema: 'x' }, ['field-invalid  schema must be "kickpanel.track/1", got "x".']],
    [
      'several fields wrong at once',
      { ...track, rateHz: 44100.5, channels: undefined, segments: [{ ...sweep, side: 'up', startS: 'now' }] },
      [
        'field-invalid  rateHz must be a whole number, got 44100.5.',
        'field-missing  channels is missing.',
        'field-invalid  segments[0].side must be one of left, right, both, got "up".',
        'field-invalid  segments[0].startS must be a number, got "now".',
      ],
    ],
    [
      'no segments',
      { ...track, segments: [] },
      ['field-invalid  segments must be a list of at least 1 entries, got 0.'],
    ],
    [
      'a segment without a start',
      { ...track, segments: [{ ...sweep, startS: undefined }] },
      ['field-missing  segments[0].startS is missing.'],
    ],
    [
      'a segment without a kind',
      { ...track, segments: [{ startS: 0, durationS: 1 }] },
      ['field-missing  segments[0].kind is missing.'],
    ],
  ])('refuses %s', (_, content, expected) => {
    expect(complaints(content)).toEqual(expected);
  });

  test.each([
    ['ends after the track', { ...sweep, durationS: 7.01 }, 'durationS'],
    ['falls', { ...sweep, fromHz: 200, toHz: 100 }, 'toHz'],
    ['stands still', { ...marker, toHz: 4000 }, 'toHz'],
    ['goes above half the rate', { ...sweep, toHz: 24001 }, 'toHz'],
    ['fades longer than it plays', { ...sweep, fadeInS: 3, fadeOutS: 3.1 }, 'fadeInS'],
  ])('refuses a segment that %s', (_, segment, field) => {
    expect(complaints({ ...track, segments: [segment] })).toEqual([
      expect.stringMatching(new RegExp(`^track-contradicts-itself : segments\\[0\\]\\.${field} `)),
    ]);
  });

  test('allows what lies just inside', () => {
    const edges = [{ ...sweep, durationS: 7, toHz: 24000, fadeInS: 3.5, fadeOutS: 3.5 }];
    expect(complaints({ ...track, segments: edges })).toEqual([]);
  });

  test('refuses a track that plays nothing', () => {
    expect(complaints({ ...track, segments: [track.segments[0]] })).toEqual([
      expect.stringMatching(/^nothing-to-read/),
    ]);
  });

  test('names a file that was most likely meant', () => {
    complaints(track);
    const read = readTrackFile(join(folder, 'a.track.jsn'));
    expect(read.ok ? '' : read.issues[0]).toMatchObject({ code: 'file-not-found', mend: 'Did you mean a.track.json?' });
  });

  test('refuses a folder', () => {
    const read = readTrackFile(folder);
    expect(read.ok ? '' : read.issues[0].code).toBe('not-a-file');
  });
});

import { readdirSync, truncateSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { noiseWav } from '../../../test/crash/busy-clients.ts';
import { type JobDesk, jobDesk } from '../../../test/job/job-command.ts';
import { shortTrack } from '../../../test/job/workshops.ts';

let desk: JobDesk;
beforeEach(() => {
  desk = jobDesk();
  writeFileSync(path('door.wav'), noiseWav(1, 9000));
  desk.file('door.track.json', shortTrack());
});
afterEach(() => desk.clear());

const path = (name: string) => desk.path(name);
const style = { width: 80, unicode: true, colour: false };

const job: JobDesk['job'] = (...words) => desk.job(...words);
const answer: JobDesk['answer'] = (...words) => desk.answer(...words);
const refusal: JobDesk['refusal'] = (...words) => desk.refusal(...words);

async function text(...words: string[]): Promise<string> {
  const outcome = await job(...words);
  return outcome.status === 2 ? JSON.stringify(outcome.issues) : outcome.text(style);
}

const newJob = () =>
  answer(
    'new',
    'Four door speakers',
    '--number',
    '0412',
    '--body',
    'van',
    '--vehicle',
    'Tarrow Pipit',
    '--owner',
    'Wenbury',
    '--who',
    'Ann',
  );

describe('job new', () => {
  test('makes a job with what is known of it', async () => {
    const view = await newJob();
    expect(view.job).toMatchObject({
      name: 'Four door speakers',
      number: '0412',
      created: { who: 'Ann' },
      vehicle: { bodyType: 'van', name: 'Tarrow Pipit' },
    });
    expect(view.personal.owner.value).toBe('Wenbury');
    expect(await text('list')).toContain('0412, Four door speakers, Tarrow Pipit');
  });

  test('needs a name and a body that there is', async () => {
    expect(await refusal('new')).toBe('argument-missing');
    expect(await refusal('new', 'a', 'b')).toBe('too-many-arguments');
    expect(await refusal('new', ' ')).toBe('wish-invalid');
    expect(await job('new', 'a', '--body', 'vann')).toMatchObject({ issues: [{ mend: 'Did you mean --body van?' }] });
    expect(await answer('list')).toMatchObject({ jobs: [] });
  });
});

test('a job is found by its id, the start of it, or its number, if only one has that', async () => {
  const { job: made } = await newJob();
  for (const name of [made.id, made.id.slice(0, 8), '0412']) expect((await answer('show', name)).job.id).toBe(made.id);
  expect(await refusal('show', 'nothing')).toBe('job-unknown');
  await newJob();
  expect(await refusal('show', '0412')).toBe('job-ambiguous');
});

describe('job append', () => {
  test('enters a take with its recording and its track', async () => {
    await newJob();
    const { appended, view } = await answer(
      ...['append', '0412', '--recording', path('door.wav'), '--track', path('door.track.json')],
      ...['--place', 'left door', '--side', 'left', '--who', 'Bob'],
    );
    expect(appended).toMatchObject([{ kind: 'take-recorded', who: 'Bob' }]);
    expect(view.job.takes).toMatchObject([{ name: 'door', place: 'left door', side: 'left', bytes: 9000 }]);
    expect(await text('show', '0412')).toMatch(/Take +door, left door/);
  });

  test('takes wishes from a file: one, several, or with ids of their own', async () => {
    await newJob();
    const note = (words: string) => ({ command: 'addNote', text: words });
    const all = [note('one'), [note('two'), note('three')], { requests: [{ id: 'mine', wish: note('four') }] }];
    for (const wishes of all) {
      writeFileSync(path('wishes.json'), JSON.stringify(wishes));
      await answer('append', '0412', path('wishes.json'));
    }
    expect((await answer('append', '0412', path('wishes.json'))).known).toEqual(['mine']);
    const { job: shown } = await answer('show', '0412');
    expect(shown.notes.map((found: { text: string }) => found.text)).toEqual(['one', 'two', 'three', 'four']);
  });

  test('takes entries that another device wrote', async () => {
    const { job: made } = await newJob();
    const { entries } = await answer('show', made.id, '--entries');
    const far = { ...entries[0], id: 'far', device: 'tablet', sequence: 1, kind: 'note-added', data: { text: 'far' } };
    writeFileSync(path('entries.json'), JSON.stringify({ entries: [...entries, far] }));
    expect(await answer('append', made.id, path('entries.json'))).toMatchObject({ appended: [{ id: 'far' }] });
  });

  test.each([
    ['{', 'not-json'],
    ['{"command":"explode"}', 'wish-invalid'],
    ['{"command":"addNote"}', 'wish-invalid'],
    ['[]', 'wish-invalid'],
    ['{"command":"undo","entry":"nothing"}', 'entry-unknown'],
  ])('refuses %s as %s', async (wishes, code) => {
    await newJob();
    writeFileSync(path('wishes.json'), wishes);
    expect(await refusal('append', '0412', path('wishes.json'))).toBe(code);
  });

  test('says which field of a wish is wrong', async () => {
    await newJob();
    writeFileSync(path('wishes.json'), '{"command":"changeCovers","covers":[{"cover":"A","state":"open"}]}');
    expect(await job('append', '0412', path('wishes.json'))).toMatchObject({
      issues: [{ message: expect.stringContaining('covers.0.state'), where: path('wishes.json') }],
    });
  });

  test('needs one thing to append, whole', async () => {
    await newJob();
    expect(await refusal('append', '0412')).toBe('nothing-to-append');
    expect(await refusal('append', '0412', 'a.json', '--recording', 'b.wav')).toBe('nothing-to-append');
    expect(await refusal('append', '0412', '--recording', path('door.wav'))).toBe('option-missing');
    expect(await refusal('append', '0412', '--recording', path('no.wav'), '--track', path('door.track.json'))).toBe(
      'file-not-found',
    );
    expect(
      await refusal('append', '0412', '--recording', path('door.track.json'), '--track', path('door.track.json')),
    ).toBe('not-a-wav');
    expect(await refusal('append', '0412', path('no.json'))).toBe('file-not-found');
  });
});

describe('job export, import and verify', () => {
  beforeEach(async () => {
    await newJob();
    await answer('append', '0412', '--recording', path('door.wav'), '--track', path('door.track.json'));
  });

  test('carry a job to another folder, whole', async () => {
    const out = await answer('export', '0412', '--out', path('job.zip'));
    expect(out).toMatchObject({ file: path('job.zip'), head: { entries: 3 } });
    expect(await answer('verify', path('job.zip'))).toMatchObject({ whole: true, recordings: 1 });
    const other = ['--data', path('other')];
    expect(await answer('import', path('job.zip'), ...other)).toMatchObject({ appended: 3, recordings: 1, tracks: 1 });
    expect(await answer('verify', '0412', '--hash', out.head.hash, ...other)).toMatchObject({ whole: true });
    expect(await text('verify', '0412', ...other)).toMatch(/^Whole: 3 entries, 1 recordings, 1 tracks/);
    expect(readdirSync(desk.path('.')).filter((name) => name.includes('tmp'))).toEqual([]);
  });

  test('end with status 1 and the first fault where something is not whole', async () => {
    const hash = 'f'.repeat(64);
    const outcome = await job('verify', '0412', '--hash', hash);
    expect(outcome).toMatchObject({ status: 1, answer: { whole: false, faults: [{ code: 'kept-hash-unknown' }] } });
    expect(await text('verify', '0412', '--hash', hash)).toContain('Not whole. The first fault comes first:');
    expect(await refusal('verify', '0412', '--hash', 'x')).toBe('bad-option-value');
  });

  test('say what is wrong with a file, and leave nothing behind', async () => {
    await answer('export', '0412', '--out', path('job.zip'), '--without-personal');
    truncateSync(path('job.zip'), 5000);
    expect(await refusal('import', path('job.zip'))).toBe('archive-unreadable');
    expect(await refusal('import', path('no.zip'))).toBe('file-not-found');
    expect(await refusal('verify', path('no.zip'))).toBe('job-unknown');
    expect(await refusal('export', '0412', '--out', path('no/such/folder.zip'))).toBe('folder-not-found');
  });
});

test('a word that is not known is answered with the one that was meant', async () => {
  expect(await job('lst')).toMatchObject({
    issues: [{ code: 'unknown-part', mend: expect.stringContaining('job list') }],
  });
  expect(await job('constructor')).toMatchObject({ issues: [{ code: 'unknown-part' }] });
  expect(await job()).toMatchObject({ issues: [{ code: 'unknown-part' }] });
});

test('a data folder that cannot be is told as such', async () => {
  expect(await refusal('list', '--data', path('door.wav'))).not.toBe('not refused');
});

test('a job as a person reads it', async () => {
  await newJob();
  writeFileSync(
    path('wishes.json'),
    JSON.stringify([
      { command: 'changeCovers', covers: [{ cover: 'A', state: 'off' }] },
      { command: 'calibrateMicrophone', microphone: 'm1', name: 'M-14', fullScaleSplDb: 120 },
      { command: 'addNote', text: 'the grille rattles' },
    ]),
  );
  await answer('append', '0412', path('wishes.json'));
  await answer('append', '0412', '--recording', path('door.wav'), '--track', path('door.track.json'));
  const shown = await text('show', '0412');
  for (const line of [
    /Job +0412, Four door speakers/,
    /Vehicle +Tarrow Pipit, van/,
    /owner +Wenbury/,
    /Covers +A off/,
    /Microphone +M-14, full scale is 120 dB SPL/,
    /Take +door, with A open/,
    /Note +the grille rattles/,
    /Journal +6 entries/,
    /Undo +would take back: recorded take door/,
    /It waits for\n +A is not fastened: close it before the last take\./,
  ]) {
    expect(shown).toMatch(line);
  }
});

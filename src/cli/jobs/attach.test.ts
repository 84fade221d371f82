import { writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { type JobDesk, jobDesk } from '../../../test/job/job-command.ts';
import { jpegPhoto, pngPhoto } from '../../../test/job/photos.ts';
import { attachedJsonSchema, evidenceJsonSchema } from '../schemas/hold-points.ts';

let desk: JobDesk;
beforeEach(async () => {
  desk = jobDesk();
  await desk.answer('new', 'Seven channels', '--number', '7');
  await desk.answer('plan', 'template', '7', 'seven-channel');
});
afterEach(() => desk.clear());

function photo(name: string, bytes: Uint8Array = jpegPhoto(name)): string {
  writeFileSync(desk.path(name), bytes);
  return desk.path(name);
}
const holds = (schema: object, value: unknown) =>
  z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]).parse(JSON.parse(JSON.stringify(value)));
const pointOf = async (id: string) =>
  (await desk.answer('hold-points', '7')).holdPoints.find((point: { id: string }) => point.id === id);

describe('job attach', () => {
  test('keeps photos with the job, called as their files or as is said', async () => {
    const two = await desk.answer('attach', '7', photo('nose.jpg'), photo('sill.png', pngPhoto()));
    holds(attachedJsonSchema(), two);
    expect(two.photos).toMatchObject([
      { name: 'nose', type: 'jpeg' },
      { name: 'sill', type: 'png' },
    ]);
    await desk.answer('attach', '7', desk.path('nose.jpg'), '--name', 'Nose, left');
    const { job } = (await desk.answer('show', '7')).view ?? (await desk.answer('show', '7'));
    expect(job.photos.map(({ name }: { name: string }) => name)).toEqual(['sill', 'Nose, left']);
    expect(await desk.answer('verify', '7')).toMatchObject({ whole: true, photos: 2 });
  });

  test('enters none where one is no photo, and says which', async () => {
    const outcome = await desk.job('attach', '7', photo('nose.jpg'), desk.file('page.jpg', '<script>'));
    expect(outcome).toMatchObject({ status: 2, issues: [{ code: 'not-a-photo', where: desk.path('page.jpg') }] });
    expect((await desk.answer('verify', '7')).photos).toBe(0);
    expect(await desk.refusal('attach', '7', desk.path('none.jpg'))).toBe('file-not-found');
    expect(await desk.refusal('attach', '7', desk.path('nose.jpg'), desk.path('nose.jpg'), '--name', 'x')).toBe(
      'options-conflict',
    );
  });
});

describe('a photo as evidence', () => {
  const fuse = 'fuse F1 fitted';

  test('closes what can be seen, from a file at once, and opens it again when it is taken back', async () => {
    const answer = await desk.answer(
      'evidence',
      '7',
      fuse,
      '--photo',
      photo('holder.jpg'),
      '--why',
      'read on the fuse',
    );
    holds(evidenceJsonSchema(), answer);
    expect(answer.appended.map(({ kind }: { kind: string }) => kind)).toEqual(['photo-attached', 'evidence-given']);
    expect(await pointOf(fuse)).toMatchObject({
      state: 'closed',
      reason: expect.stringContaining('Photo holder: read'),
    });
    const undo = desk.file('undo.json', { command: 'undo', entry: answer.appended[0].id });
    await desk.answer('append', '7', undo);
    expect(await pointOf(fuse)).toMatchObject({ state: 're-opened', reason: expect.stringContaining('taken back') });
  });

  test('may be one that the job has, by its name or hash', async () => {
    const { photos } = await desk.answer('attach', '7', photo('way.jpg'));
    const run = (await desk.answer('hold-points', '7')).holdPoints.find(
      ({ kind }: { kind: string }) => kind === 'run-laid',
    ).id;
    for (const named of ['way', photos[0].photo, photos[0].photo.slice(0, 8)]) {
      const given = await desk.answer('evidence', '7', run, '--photo', named);
      expect(given.appended).toHaveLength(1);
      expect(given.holdPoints[0].state).toBe('closed');
    }
  });

  test('closes nothing that must be measured, heard or tugged', async () => {
    const { holdPoints } = await desk.answer('hold-points', '7');
    const never = new Set(['coils-read', 'gain-set', 'source-ceiling', 'channel-reaches', 'driver-polarity']);
    for (const kind of [...never, 'lead-connected', 'box-fixed', 'factory-sounds', 'calls-heard', 'settings-kept']) {
      const point = holdPoints.find((known: { kind: string }) => known.kind === kind);
      if (point === undefined) continue;
      never.delete(kind);
      expect(await desk.refusal('evidence', '7', point.id, '--photo', photo(`${kind}.jpg`))).toBe('evidence-unfit');
    }
    expect([...never]).toEqual([]);
    expect(await desk.answer('verify', '7')).toMatchObject({ photos: 0 });
  });

  test('does not clear a value that a meter read outside', async () => {
    const { holdPoints } = await desk.answer('hold-points', '7');
    const { id } = holdPoints.find(({ kind }: { kind: string }) => kind === 'ground-holds');
    await desk.job('evidence', '7', id, '--measured', '1', '--unit', 'ohm');
    expect(await desk.job('evidence', '7', id, '--photo', photo('bolt.jpg'))).toMatchObject({ status: 1 });
    expect(await pointOf(id)).toMatchObject({
      state: 're-opened',
      reason: expect.stringContaining('It reads 1 ohm'),
    });
    await desk.job('evidence', '7', id, '--measured', '1', '--unit', 'mOhm');
    expect((await pointOf(id)).state).toBe('closed');
  });
});

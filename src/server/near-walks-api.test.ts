import { afterAll, beforeAll, expect, test } from 'vitest';
import { folderWorkshop } from '../../test/job/workshops.ts';
import { type PracticeJob, practiceJob } from '../../test/near-walk/practice-job.ts';
import { type AppBench, appBench, runnerInThisThread } from '../../test/server/app-bench.ts';
import { nearPlanOfJob } from '../job/near-walk/near-plan-of-job.ts';
import { nearProofs } from '../job/near-walk/near-proof.ts';
import { nearTakesOf } from '../job/near-walk/near-takes.ts';
import { byteSourceFromArray } from '../signals/recording.ts';
import { readWav } from '../signals/wav/read-wav.ts';

let runner: ReturnType<typeof runnerInThisThread>;
let bench: AppBench;
let car: PracticeJob;
let track: string;

async function openJob(job: string): Promise<void> {
  const wishes = [{ command: 'createJob', name: 'Practice', number: job.slice(-4) }, car.wish];
  const requests = wishes.map((wish, n) => ({ id: `${job}-${n}`, who: 'A. B.', wish }));
  const made = await bench.send('POST', '/api/jobs', { job, requests });
  expect(made.status).toBe(201);
}

/** A take of the journal, at the place as its name or its id says it. */
async function take(job: string, id: string, place: string, recording: { sha256: string; bytes: number }) {
  const { sha256, bytes } = recording;
  const wish = { command: 'recordTake', take: id, name: id, recording: sha256, bytes, track, place, covers: [] };
  const level = { reference: 'full-scale' };
  const kept = { command: 'keepTrack', track, kind: 'near', durationS: car.track.durationS };
  const wishes = [kept, { ...wish, level }].map((one, n) => ({ id: `${job}-${id}-${n}`, who: 'A. B.', wish: one }));
  const { view } = (await bench.get(`/api/jobs/${job}`)).body;
  const known = view === undefined ? [] : view.job.tracks;
  const requests = known.length > 0 ? wishes.slice(1) : wishes;
  const said = await bench.send('POST', `/api/jobs/${job}/entries`, { requests });
  expect([said.status, said.body.error]).toEqual([201, undefined]);
}

function samplesIn(wav: Uint8Array): { samples: Float64Array; rateHz: number } {
  const read = readWav(byteSourceFromArray(wav));
  if (!read.ok) throw new Error(read.issues[0].message);
  const { frames, rateHz } = read.value.recording;
  const samples = new Float64Array(frames);
  read.value.recording.readChannel(0, 0, frames, samples);
  return { samples, rateHz };
}

const send = async (wav: Uint8Array) => (await bench.send('PUT', '/api/recordings', wav, 'audio/wav')).body;

async function over(id: string, on = bench) {
  for (;;) {
    const { body } = await on.get(`/api/near/${id}`);
    if (body.state !== 'waiting' && body.state !== 'running') return body;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

beforeAll(async () => {
  car = practiceJob(17, 1);
  runner = runnerInThisThread();
  bench = await appBench({ runner });
  track = (await bench.send('PUT', '/api/tracks', car.track)).body.sha256;
  await openJob('job-0001');
}, 120_000);
afterAll(() => bench.clear());

test('the near walk of a job finds what the bay planted, is kept, and proves only what is as planned', async () => {
  expect(car.faults).toEqual(['reversed:speaker:front right tweeter']);
  for (const place of car.places) {
    // Places go by their name in the take screen, and by their id elsewhere.
    const name = car.wish.changes.find(({ part, id }) => part === 'place' && id === place)?.value as { name: string };
    const wav = car.wavs.get(place) as Uint8Array;
    await take('job-0001', `take-${place}`, place === 'P1' ? name.name.toUpperCase() : place, await send(wav));
  }
  const begun = await bench.send('POST', '/api/jobs/job-0001/near-walk', {});
  expect([begun.status, begun.body.state]).toEqual([202, 'waiting']);
  expect(begun.body.takes).toEqual(car.places.map((place) => ({ place, take: `take-${place}` })));
  const done = await over(begun.body.id);
  expect(done).toMatchObject({ state: 'done', share: 1 });
  // The practice car calls the second output out2, the job its channel C2.
  const faults = done.walk.explanations.map((one: { faults: string[] }) => one.faults);
  expect(faults).toEqual([['invert:C2'], ['reversed:speaker:P2']]);
  const verdicts = done.walk.places.map(({ place, verdict }: { place: string; verdict: string }) => [place, verdict]);
  expect(verdicts).toEqual(car.places.map((place) => [place, place === 'P2' ? 'differs' : 'as-planned']));
  const drawn = done.walk.curves.map(({ place }: { place: string }) => place);
  expect(drawn).toEqual(car.places);
  for (const { points } of done.walk.curves) {
    const own = points.filter((point: { own: boolean }) => point.own);
    expect(Math.max(...own.map(({ levelDb }: { levelDb: number }) => levelDb))).toBe(0);
  }

  const { job } = (await bench.get('/api/jobs/job-0001')).body;
  const near = nearPlanOfJob(job.plan.parts);
  const proofs = nearProofs(job, near, done.walk, nearTakesOf(job, near.walk));
  expect(proofs.map(({ place, take: by }) => [place, by])).toEqual(
    car.places.filter((place) => place !== 'P2').map((place) => [place, `take-${place}`]),
  );
  expect(proofs[0].holdPoints).toEqual(['channel C1 reaches', 'lead L1 connected', 'driver D1 polarity']);
  // Nothing is proven while a driver is in danger.
  expect(nearProofs(job, near, { ...done.walk, findings: [{}] }, nearTakesOf(job, near.walk))).toEqual([]);
  // Nor by a take that is older than a change of what it shows.
  const later = [{ ...job.plan.changes[0], part: 'channel', id: 'C1', when: '2999-01-01T00:00:00.000Z' }];
  const changed = { ...job, plan: { ...job.plan, changes: [...job.plan.changes, ...later] } };
  expect(nearProofs(changed, near, done.walk, nearTakesOf(job, near.walk))[0].place).not.toBe('P1');

  // The same again costs nothing, also after a new start of the server; another reader reads anew.
  const runs = runner.runs;
  const again = await bench.send('POST', '/api/jobs/job-0001/near-walk', {});
  expect([again.status, again.body.id, runner.runs]).toEqual([200, begun.body.id, runs]);
  const folder = await folderWorkshop(bench.folder);
  const idle = runnerInThisThread();
  const same = await appBench({ bench: folder, runner: idle });
  const kept = await same.send('POST', '/api/jobs/job-0001/near-walk', {});
  expect([kept.status, kept.body.walk, idle.runs]).toEqual([200, done.walk, 0]);
  await folder.close();
}, 120_000);

test('a take that is set aside counts no longer', async () => {
  const wish = { command: 'noteTake', take: 'take-P2', kept: false };
  await bench.send('POST', '/api/jobs/job-0001/entries', { requests: [{ id: 'aside', who: 'A. B.', wish }] });
  const { body } = await bench.send('POST', '/api/jobs/job-0001/near-walk', {});
  expect(body.takes.map(({ place }: { place: string }) => place)).not.toContain('P2');
  const { walk } = await over(body.id);
  expect(walk.notProven).toContain('P2');
  expect(walk.places.map(({ place }: { place: string }) => place)).not.toContain('P2');
}, 60_000);

test('one long recording is cut into its stops, sample for sample', async () => {
  const wav = car.long(['P1', 'P3']);
  const long = await send(wav);
  const begun = await bench.send('POST', '/api/near-plays', { recording: long.sha256, track });
  expect(begun.status).toBe(202);
  const { plays } = await over(begun.body.id);
  expect(plays).toHaveLength(2);
  expect(plays[1].startS).toBeGreaterThan(plays[0].startS + plays[0].durationS - 0.5);
  const kept = await bench.get(`/api/recordings/${plays[0].recording}`);
  expect([kept.status, kept.body.length]).toEqual([200, plays[0].bytes]);
  const [whole, cut] = [samplesIn(wav), samplesIn(kept.body)];
  const from = Math.round(plays[0].startS * whole.rateHz);
  expect(cut.samples).toEqual(whole.samples.subarray(from, from + cut.samples.length));
  await openJob('job-0002');
  await take('job-0002', 'cut-P1', 'P1', { sha256: plays[0].recording, bytes: plays[0].bytes });
  await take('job-0002', 'cut-P3', 'P3', { sha256: plays[1].recording, bytes: plays[1].bytes });
  const { walk } = await over((await bench.send('POST', '/api/jobs/job-0002/near-walk', {})).body.id);
  expect(walk.places.map(({ place, side }: { place: string; side: string }) => [place, side])).toEqual([
    ['P1', 'left'],
    ['P3', 'left'],
  ]);
}, 60_000);

test('it can be stopped, and begins anew when it is asked for again', async () => {
  let open = () => {};
  const gate = new Promise<void>((resolve) => {
    open = resolve;
  });
  const folder = await folderWorkshop(bench.folder);
  const slow = await appBench({ bench: folder, runner: runnerInThisThread(() => gate), version: 'test-2' });
  const { id } = (await slow.send('POST', '/api/jobs/job-0002/near-walk', {})).body;
  expect((await slow.send('DELETE', `/api/near/${id}`, {})).body.state).toBe('cancelled');
  expect((await slow.get(`/api/near/${id}`)).body.state).toBe('cancelled');
  const again = await slow.send('POST', '/api/jobs/job-0002/near-walk', {});
  expect([again.status, again.body.id]).toEqual([202, id]);
  open();
  expect((await over(id, slow)).state).toBe('done');
  await folder.close();
}, 60_000);

test('what is not there is said: no such job, no channels planned, no such recording, nothing asked for', async () => {
  expect((await bench.send('POST', '/api/jobs/job-9999/near-walk', {})).status).toBe(404);
  const requests = [{ id: 'bare-0', who: 'A. B.', wish: { command: 'createJob', name: 'Bare' } }];
  await bench.send('POST', '/api/jobs', { job: 'job-bare', requests });
  const bare = await bench.send('POST', '/api/jobs/job-bare/near-walk', {});
  expect([bare.status, bare.body.error.code]).toEqual([409, 'plan-incomplete']);
  const nothing = 'a'.repeat(64);
  const lost = await bench.send('POST', '/api/near-plays', { recording: nothing, track });
  expect([lost.status, lost.body.error.code]).toEqual([404, 'recording-unknown']);
  expect((await bench.get(`/api/near/${nothing}`)).status).toBe(404);
});

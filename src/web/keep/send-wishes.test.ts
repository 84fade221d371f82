import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type AppBench, appBench } from '../../../test/server/app-bench.ts';
import type { Command } from '../../job/commands/commands.ts';
import { openContradictions } from '../../job/open-contradictions.ts';
import type { JobView, ShopApi } from '../api-client.ts';
import type { KeptWish } from './kept-wish.ts';
import { sendWish } from './send-wishes.ts';
import { wishHere } from './wish-here.ts';

let bench: AppBench;
let api: Pick<ShopApi, 'job' | 'append'>;
beforeEach(async () => {
  bench = await appBench();
  api = {
    job: async (job) => (await bench.get(`/api/jobs/${job}`)).body,
    append: async (job, who, wishes) => {
      const requests = wishes.map((wish) => ({ ...wish, who }));
      const { status, body } = await bench.send('POST', `/api/jobs/${job}/entries`, { requests });
      if (status >= 400) throw new Error(body.error.code);
      return body.view;
    },
  };
  const wish = { command: 'createJob', name: 'x', purpose: 'car' };
  await bench.send('POST', '/api/jobs', { job: 'j1', requests: [{ id: 'o1', who: 'Cy', wish }] });
});
afterEach(() => bench.clear());

let order = 0;

/** What somebody wishes who cannot reach the shop, a little later each time. */
function kept(view: JobView, who: string, ...wishes: Command[]): { view: JobView; kept: KeptWish[] } {
  const made = wishes.map((wish) => {
    order++;
    const when = new Date(Date.UTC(2030, 0, 1, 0, 0, order)).toISOString();
    const ids = { id: `w${order}`, noteId: `n${order}` };
    return { ...ids, job: 'j1', who, when, order, wish, state: 'waiting' as const };
  });
  const here = wishHere(view, made);
  if (!here.ok) throw new Error(here.issues[0].code);
  return here.value;
}

async function sent(wishes: readonly KeptWish[]): Promise<JobView> {
  let view = await api.job('j1');
  for (const wish of wishes) view = await sendWish(api as ShopApi, wish);
  return view;
}

const cover = (state: 'off' | 'resting'): Command => ({ command: 'changeCovers', covers: [{ cover: 'B', state }] });
const run = (lengthM: number): Command => ({ command: 'setPlanPart', part: 'run', id: 'R1', value: { lengthM } });

describe('wishes that waited', () => {
  test('come to the job that the page showed meanwhile, as often as they are sent', async () => {
    const here = kept(await api.job('j1'), 'Ann', run(3), cover('off'), run(4), {
      command: 'addNote',
      text: 'A nail.',
    });
    await sent(here.kept);
    const { job } = await sent(here.kept);
    expect(job.plan.parts).toEqual(here.view.job.plan.parts);
    expect(job.covers).toEqual(here.view.job.covers);
    expect(job.notes).toEqual(here.view.job.notes);
    expect(openContradictions(job)).toEqual([]);
  });

  test('of two people who moved the same cover are both kept, and a note tells of it', async () => {
    const view = await api.job('j1');
    const [ann, ben] = [kept(view, 'Ann', cover('off')), kept(view, 'Ben', cover('resting'))];
    // Whoever comes back first: the later wish counts.
    await sent(ben.kept);
    const { job } = await sent(ann.kept);
    expect(job.covers).toMatchObject([{ cover: 'B', state: 'resting' }]);
    expect(openContradictions(job)).toMatchObject([
      { says: expect.stringContaining('Ann made it off without knowing that somebody else made it resting') },
    ]);
  });

  test('of two people who changed the same part are told once, in whatever order they come back', async () => {
    await sent(kept(await api.job('j1'), 'Cy', run(2)).kept);
    const view = await api.job('j1');
    const [ann, ben] = [kept(view, 'Ann', run(4)), kept(view, 'Ben', run(5))];
    await sent(ben.kept);
    const { job } = await sent(ann.kept);
    expect(job.plan.parts.run).toMatchObject([{ lengthM: 5 }]);
    const [told, ...more] = openContradictions(job);
    expect(more).toEqual([]);
    expect(told).toMatchObject({ says: expect.stringContaining('Ann and Ben'), lost: { value: { lengthM: 4 } } });
  });

  test('that cannot be are refused where they are made', async () => {
    const view = await api.job('j1');
    expect(() => kept(view, 'Ann', { command: 'removePlanPart', part: 'run', id: 'R9' })).toThrow('nothing-changes');
  });
});

import { afterEach, beforeEach, expect, test } from 'vitest';
import { does, folderWorkshop } from '../../test/job/workshops.ts';
import { type AppBench, appBench } from '../../test/server/app-bench.ts';
import { watchForeignChanges } from './foreign-changes.ts';

let bench: AppBench;
beforeEach(async () => {
  bench = await appBench();
});
afterEach(() => bench.clear());

const opening = { command: 'createJob', name: 'x', purpose: 'car' } as const;

/** What a browser hears, event by event. */
async function listener() {
  const answer = await bench.request('/api/events');
  const reader = (answer.body as ReadableStream<Uint8Array>).getReader();
  let text = '';
  return {
    type: answer.headers.get('content-type'),
    async next(): Promise<string> {
      while (!text.includes('\n\n')) {
        const { value, done } = await reader.read();
        if (done) return 'over';
        text += new TextDecoder().decode(value);
      }
      const [block] = text.split('\n\n', 1);
      text = text.slice(block.length + 2);
      return block;
    },
    close: () => reader.cancel(),
  };
}

test('two browsers hear of what a third writes, at once', async () => {
  const [first, second] = [await listener(), await listener()];
  expect(first.type).toContain('text/event-stream');
  expect(await first.next()).toBe('event: ready\ndata: {}');
  await second.next();
  const body = { job: 'j1', requests: [{ id: 'o1', who: 'Ann', wish: opening }] };
  const begun = performance.now();
  const { view } = (await bench.send('POST', '/api/jobs', body)).body;
  const news = `event: changed\ndata: ${JSON.stringify({ job: 'j1', ...view.head })}`;
  expect([await first.next(), await second.next()]).toEqual([news, news]);
  expect(performance.now() - begun).toBeLessThan(1000);
  await first.close();
  await second.close();
});

test('what another program writes into the folder is heard within a second', async () => {
  const end = await watchForeignChanges(bench.workshop);
  const other = await folderWorkshop(bench.folder, { device: 'command-line' });
  const browser = await listener();
  await browser.next();
  await new Promise((resolve) => setTimeout(resolve, 500));
  // The quickest of three: a machine that is busy with other tests may be late once.
  let quickestMs = Number.POSITIVE_INFINITY;
  for (const job of ['j7', 'j8', 'j9']) {
    const begun = performance.now();
    await does(other.workshop, job, opening);
    expect(await browser.next()).toContain(`"job":"${job}","entries":1`);
    quickestMs = Math.min(quickestMs, performance.now() - begun);
  }
  expect(quickestMs).toBeLessThan(1000);
  expect((await bench.get('/api/jobs/j7')).body.job.name).toBe('x');
  end();
  await browser.close();
  await other.close();
});

// Two people on one job, each with a browser of their own: what one does the other sees, and nothing is lost while one
// of them cannot reach the shop.
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { openedForAll } from './web-hooks.ts';
import { ask, type Bench, hangUpJob, type MadeJob, openBench, textOf } from './web-page.ts';
import { faultsShown } from './web-screens.ts';

const at = openedForAll();
let ann: Bench;
let ben: Bench;
beforeAll(async () => {
  ann = await openBench(at.browser, at.shop, { who: 'Ann' });
  ben = await openBench(at.browser, at.shop, { who: 'Ben', touch: true });
}, 120_000);

async function note(page: Page, text: string): Promise<void> {
  await page.getByLabel('Note something').fill(text);
  await page.getByRole('button', { name: 'Write it down' }).click();
}

const noted = (page: Page, text: string) => page.locator('blockquote', { hasText: text }).waitFor();

const cardOf = (page: Page, job: MadeJob) => page.goto(`/jobs/${job.id}`);
const waiting = (page: Page, count: number) =>
  page.getByText(`Shop copy waits`).or(page.getByText(`${count} on the way`));

test('what one writes the other sees within a second', async () => {
  const job = await hangUpJob(at.shop, { number: '0601', name: 'Grey estate', bodyType: 'estate' });
  await Promise.all([cardOf(ann.page, job), cardOf(ben.page, job)]);
  await ben.page.getByLabel('Note something').waitFor();
  await note(ann.page, 'The left door clip is broken.');
  const begun = performance.now();
  await noted(ben.page, 'The left door clip is broken.');
  expect(performance.now() - begun).toBeLessThan(1000);
  // And taken back by the other, on the other screen.
  await ben.page.getByRole('button', { name: /^Undo/ }).click();
  await ben.page.locator('blockquote', { hasText: 'clip is broken' }).waitFor({ state: 'detached' });
  const undone = performance.now();
  await ann.page.locator('blockquote', { hasText: 'clip is broken' }).waitFor({ state: 'detached' });
  expect(performance.now() - undone).toBeLessThan(1000);
});

test('what both do while they cannot reach the shop arrives, and what contradicts is put before them', async () => {
  const job = await hangUpJob(at.shop, { number: '0602', name: 'Blue van', bodyType: 'van' });
  const wish = { command: 'setPlanPart', part: 'run', id: 'R1', value: { from: 'BAT', to: 'A', lengthM: 3 } };
  await ask(at.shop, `/api/jobs/${job.id}/entries`, 'POST', { requests: [{ id: 'run-2', who: 'Cy', wish }] });
  const people: [Bench, string, string][] = [
    [ann, 'Ann found a nail.', '4'],
    [ben, 'Ben found a screw.', '5'],
  ];
  for (const [{ page }] of people) await page.goto(`/jobs/${job.id}/loom`);
  for (const [{ page, context }, text, metres] of people) {
    await page.getByRole('button', { name: 'Sizes, lengths and fuses' }).click();
    const length = page.getByRole('textbox', { name: /R1.*length|length.*R1/i });
    await length.waitFor();
    await context.setOffline(true);
    await length.fill(metres);
    await page.getByRole('button', { name: /^Keep/ }).first().click();
    await waiting(page, 1).first().waitFor();
    await page.getByRole('link', { name: /Arrive/ }).click();
    await note(page, text);
    // Seen where it was done, though the shop knows nothing of it.
    await noted(page, text);
  }
  const before = (await ask(at.shop, `/api/jobs/${job.id}`)).body.job;
  expect(before.notes).toHaveLength(1);
  expect(before.plan.parts.run).toMatchObject([{ id: 'R1', lengthM: 3 }]);
  for (const [{ context }] of people) await context.setOffline(false);
  for (const [{ page }] of people) {
    for (const [, text] of people) await noted(page, text);
    await page.getByText('Ann and Ben both changed run R1 without knowing of each other.').waitFor();
  }
  const after = (await ask(at.shop, `/api/jobs/${job.id}`)).body.job;
  expect(after.plan.parts.run).toMatchObject([{ id: 'R1', lengthM: 5 }]);
  expect(after.plan.conflicts).toMatchObject([{ who: 'Ben', over: { who: 'Ann' }, lost: { value: { lengthM: 4 } } }]);
  expect(after.notes.map(({ text }: { text: string }) => text).sort()).toEqual(
    ['Ann found a nail.', 'Ben found a screw.', 'It buzzes when it is turned up.'].sort(),
  );
  expect(await faultsShown(ben.page, 'a contradiction')).toEqual([]);
  await ben.page.getByRole('button', { name: 'Take the other' }).click();
  for (const [{ page }] of people) {
    await page.getByText('Ann and Ben both changed run R1').waitFor({ state: 'detached' });
  }
  expect((await ask(at.shop, `/api/jobs/${job.id}`)).body.job.plan.parts.run).toMatchObject([{ id: 'R1', lengthM: 4 }]);
  expect(await textOf(ann.page.locator('.saved'))).not.toContain('on the way');
});

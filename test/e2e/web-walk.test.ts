// First sound in a real browser: a walk through a car with two leads exchanged, until it is mended and proven.
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { openedForAll } from './web-hooks.ts';
import { ask, hangUpPlannedJob, openBench, sentence } from './web-page.ts';
import { faultsShown } from './web-screens.ts';

const at = openedForAll();

/** Where each channel really sounds: the leads of C3 and C4 sit on each other's terminals. */
const exchanged: Record<string, string> = { C3: 'P4', C4: 'P3' };

const asked = async (page: Page): Promise<string> => /^Play (C\d)/.exec(await sentence(page))?.[1] ?? '';

/** Taps where a channel sounds, that it pushes, and writes it down. */
async function hears(page: Page, channel: string, place: string): Promise<void> {
  await page.getByRole('button', { name: new RegExp(`^${place}`) }).click();
  await page.getByText('pushes').click();
  await page.getByRole('button', { name: `Heard at ${place}` }).click();
  await page.waitForFunction((id) => !document.querySelector('h1')?.textContent?.startsWith(`Play ${id}`), channel);
}

test('two leads exchanged are found by ear, named with where they go, and proven after they are moved', async () => {
  const job = await hangUpPlannedJob(at.shop, { number: '0701', name: 'Grey estate', bodyType: 'estate' });
  const { page, complaints, close } = await openBench(at.browser, at.shop, { touch: true });
  await page.goto(`/jobs/${job.id}/loom`);
  await page.getByRole('link', { name: /^First sound/ }).click();
  await page.locator('.spot').first().waitFor();

  // The first is a tweeter, and its sound is made, played, and stopped by a key.
  expect(await asked(page)).toBe('C1');
  await page.getByText('The sound stays in a band that a tweeter bears').waitFor();
  await page.getByRole('button', { name: /^Play C1/ }).click();
  await page.getByRole('button', { name: 'Stop the sound' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Stop the sound' }).waitFor({ state: 'detached' });

  for (let n = 0; n < 7; n++) {
    const channel = await asked(page);
    if (n === 3) {
      await page.getByRole('button', { name: /^P4/ }).click();
      expect(await faultsShown(page, 'a place tapped')).toEqual([]);
      await page.getByRole('button', { name: /^P4/ }).click();
    }
    await hears(page, channel, exchanged[channel] ?? channel.replace('C', 'P'));
  }
  // Exchanged before or behind the amplifier sounds alike: both are listed, and the test that tells them apart.
  const listed = page.locator('.explained ol > li');
  expect(await listed.count()).toBe(2);
  expect(await sentence(page)).toBe('Feed the input of A/3 from a hand player, quietly.');
  expect(await faultsShown(page, 'exchanged leads')).toEqual([]);
  const { plan } = (await ask(at.shop, `/api/jobs/${job.id}`)).body.job;
  const [third, fourth] = ['C3', 'C4'].map((id) =>
    plan.parts.channel.find((channel: { id: string }) => channel.id === id),
  );
  expect(third.amplifier).toBe('A/3');
  const place = plan.parts.place.find(({ id }: { id: string }) => id === 'P4');
  // Fed there it sounds at the other's place: the speaker leads.
  await page
    .locator('.outcomes')
    .getByRole('button', { name: new RegExp(place.name) })
    .click();
  await page.getByRole('button', { name: /^It is mended/ }).waitFor();
  expect(await sentence(page)).toBe(
    `Move L13 from ${fourth.amplifier} to ${third.amplifier} and L14 from ${third.amplifier} to ${fourth.amplifier}.`,
  );
  await page.getByRole('button', { name: /^It is mended/ }).click();
  for (const channel of ['C3', 'C4']) {
    await page.waitForFunction((id) => document.querySelector('h1')?.textContent?.startsWith(`Play ${id}`), channel);
    await hears(page, channel, channel.replace('C', 'P'));
  }
  expect(await sentence(page)).toBe('Every channel is heard where it is planned.');
  const closed = async () =>
    (await ask(at.shop, `/api/jobs/${job.id}`)).body.job.evidence.map(
      ({ holdPoint, evidence }: { holdPoint: string; evidence: { name: string } }) => `${holdPoint} ${evidence.name}`,
    );
  // Nothing is closed by the walk alone.
  expect(await closed()).toEqual([]);
  expect(await faultsShown(page, 'all heard')).toEqual([]);
  await page.getByRole('button', { name: /^Close / }).click();
  await page.getByRole('button', { name: /^Go to the gains/ }).waitFor();
  expect(await closed()).toEqual(
    expect.arrayContaining(['channel C3 reaches A. B.', 'lead L13 connected A. B.', 'driver D4 polarity A. B.']),
  );
  expect(complaints).toEqual([]);
  await close();
});

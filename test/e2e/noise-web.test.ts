// The noise hunt in a real browser: takes dropped, what climbs with the engine told, and the path cut until it is found.
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { writeWav } from '../../src/signals/wav/write-wav.ts';
import { alternatorTones, type NoiseRecipe, simulatedNoise } from '../noise-hunt/simulated-noise.ts';
import { openedForAll } from './web-hooks.ts';
import { ask, hangUpPlannedJob, openBench, sentence } from './web-page.ts';
import { faultsShown } from './web-screens.ts';

const at = openedForAll();

function file(name: string, recipe: NoiseRecipe) {
  const bytes = writeWav({ channels: [simulatedNoise(recipe)], rateHz: recipe.rateHz ?? 16_000, format: '24' });
  return { name, mimeType: 'audio/wav', buffer: Buffer.from(bytes) };
}

const whine = (rpm: number, seed: number): NoiseRecipe => ({
  seed,
  tones: [
    { fHz: alternatorTones(rpm, 2.6, 6).rippleHz, rms: 6e-4 },
    { fHz: 312, rms: 5e-4 },
  ],
});

const give = (page: Page, take: string, chosen: ReturnType<typeof file>) =>
  page.locator(`[data-take="${take}"] input[type="file"]`).setInputFiles(chosen);

const says = (page: Page, start: string) =>
  page.waitForFunction((words) => document.querySelector('h1')?.textContent?.startsWith(words), start);

test('a whine is told from two speeds, followed by its answers, and written down', async () => {
  const job = await hangUpPlannedJob(at.shop, { number: '0711', name: 'Otter estate', bodyType: 'estate' });
  const { page, complaints, close } = await openBench(at.browser, at.shop, { touch: true });
  await page.goto(`/jobs/${job.id}/gains`);
  await page.getByRole('button', { name: 'Noise hunt' }).click();
  await page.locator('.slot').first().waitFor();

  await give(page, 'off', file('off.wav', { seed: 1 }));
  await page.getByRole('button', { name: /^Record: idle/ }).waitFor();
  await give(page, 'idle', file('idle.wav', whine(820, 2)));
  await page.getByRole('button', { name: /^Record: raised revs/ }).waitFor();
  await give(page, 'revs', file('revs.wav', whine(2150, 3)));
  await page.getByRole('button', { name: /^Type the revs/ }).click();
  await page.keyboard.type('820');
  await page.locator('[data-take="revs"]').getByLabel('Revs, a minute').fill('2150');
  await says(page, 'One tone climbs with the engine');
  expect(await page.locator('.hunt-tones .moves td').allTextContents()).toContain('alternator ripple');
  await page.getByText('bay door open and the exhaust led outside').waitFor();
  expect(await faultsShown(page, 'a whine')).toEqual([]);

  // The main action leads to the answer, and each answer to the next test.
  await page.getByRole('button', { name: /^Plugs in the processor/ }).click();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Follows it' }).waitFor();
  expect(await page.locator('.hunt-path .suspect').count()).toBe(2);
  await page.getByRole('button', { name: 'Stays' }).click();
  await page.getByRole('button', { name: /^Lay a free lead/ }).waitFor();
  await page.locator('.answers').getByRole('button', { name: 'Still there' }).click();
  await page.getByLabel('The meter reads, mV').fill('14');
  await page.getByRole('button', { name: 'Keep the reading' }).click();
  await page.getByText('14 mV lie between the two grounds').waitFor();
  expect(await sentence(page)).toMatch(/it enters by a ground loop\.$/);
  expect(await faultsShown(page, 'found')).toEqual([]);

  await page.getByRole('button', { name: /^Write it down/ }).click();
  await page.getByRole('button', { name: /^Back to the job/ }).waitFor();
  const { notes } = (await ask(at.shop, `/api/jobs/${job.id}`)).body.job;
  expect(notes.at(-1)).toMatchObject({
    about: 'noise hunt',
    text: expect.stringMatching(/ground loop[\s\S]*order 93\.6/),
  });

  // An answer taken back asks again; a reload keeps revs and answers, and the takes are given anew.
  await page.getByRole('button', { name: /^Take back Measure ground/ }).click();
  await page.getByRole('button', { name: /^Measure ground to ground/ }).waitFor();
  await page.reload();
  expect(await page.locator('[data-take="revs"]').getByLabel('Revs, a minute').inputValue()).toBe('2150');
  await give(page, 'off', file('short.wav', { seconds: 2 }));
  await page.getByText('The take lasts 2.0 s').first().waitFor();
  expect(await faultsShown(page, 'a take that is too short')).toEqual([]);
  await give(page, 'off', { name: 'song.wav', mimeType: 'audio/wav', buffer: Buffer.from('ID3 no sound at all') });
  await page.locator('.finding.stop').waitFor();
  expect(complaints).toEqual([]);
  await close();
}, 120_000);

test('a take is recorded here, stopped, and read', async () => {
  const job = await hangUpPlannedJob(at.shop, { number: '0712', name: 'Otter van', bodyType: 'van' });
  const { page, complaints, close } = await openBench(at.browser, at.shop);
  await page.goto(`/jobs/${job.id}/noise-hunt`);
  await page.getByRole('button', { name: /^Record: engine off/ }).click();
  await page.getByRole('button', { name: /^Stop and keep.*long enough/ }).click({ timeout: 30_000 });
  await page.locator('[data-take="off"] .heard').waitFor();
  await page.locator('[data-take="off"]').getByText('Recorded here').waitFor();
  expect(complaints).toEqual([]);
  await close();
});

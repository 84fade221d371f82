// The near walk in a real browser, with takes of the practice bay: dropped one by one and as one long recording.
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { type PracticeJob, practiceJob } from '../near-walk/practice-job.ts';
import { openedForAll } from './web-hooks.ts';
import { ask, openBench, sentence } from './web-page.ts';
import { faultsShown } from './web-screens.ts';

/** Takes are rendered, read and cut, all by this machine: twice what it takes with both cores busy. */
const longestMs = 120_000;

const at = openedForAll();
let car: PracticeJob;
beforeAll(() => {
  car = practiceJob(17, 1);
}, 60_000);

const file = (name: string, wav: Uint8Array) => ({ name, mimeType: 'audio/wav', buffer: Buffer.from(wav) });

const verdict = (page: Page, n: number) => page.locator('.near-rows > li').nth(n).locator('.against .sev');

test('what each cone is fed is read from a take before it, and what is as planned is closed by its take', {
  timeout: longestMs,
}, async () => {
  const [first, second, ...others] = car.places;
  expect(car.faults).toEqual(['reversed:speaker:front right tweeter']);
  const job = 'job-0801';
  const wishes = [{ command: 'createJob', name: 'Practice', number: '0801' }, car.wish];
  const requests = wishes.map((wish, n) => ({ id: `${job}-${n}`, who: 'A. B.', wish }));
  expect((await ask(at.shop, '/api/jobs', 'POST', { job, requests })).status).toBe(201);
  const { page, complaints, close } = await openBench(at.browser, at.shop, { touch: true });
  await page.goto(`/jobs/${job}/first-sound`);
  await page.getByRole('link', { name: /^Near walk/ }).click();
  await page.locator('.near-rows > li').first().waitFor();
  expect(await sentence(page)).toMatch(/^Hold the microphone 3 to 5 cm before each of .* everything plays/);
  expect(await page.locator('.near-rows > li').count()).toBe(car.places.length);

  // One recording on its place, with the description of its track.
  const description = {
    name: 'near.track.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(car.track)),
  };
  await page
    .getByLabel(`WAV for ${first}`)
    .setInputFiles([file('one.wav', car.wavs.get(first) as Uint8Array), description]);
  await verdict(page, 0).waitFor();

  // A long one that has fewer stops than there are places is told in words, and nothing is written down.
  await page.getByLabel('One long recording').setInputFiles([file('short.wav', car.long([second]))]);
  await page
    .getByText(
      /holds one whole play of the track, begun at 0:0\d; the list has five places, four of them are still open/,
    )
    .waitFor();
  await page.getByLabel('One long recording').setInputFiles([file('long.wav', car.long([second, ...others]))]);
  await verdict(page, car.places.length - 1).waitFor();
  expect(await sentence(page)).toMatch(/ play as planned\. P2 pulls\.$/);
  expect(await verdict(page, 1).textContent()).toBe('pulls');
  const band = page.locator('.near-rows > li').nth(0).locator('.band');
  expect(await band.getAttribute('aria-label')).toMatch(/^Planned: from .* up\. Found: from .*dB per octave\.$/);
  expect(await page.locator('.near-told ol > li').count()).toBe(2);
  expect(await page.locator('.near-told .next').textContent()).toContain('Look at DSP/2 in the processor.');
  expect(await faultsShown(page, 'near walk')).toEqual([]);

  // All that is proven is closed in one tap, each by its own take; the place that pulls stays open.
  await page.getByRole('button', { name: /^Close .* hold points/ }).click();
  await page.getByRole('button', { name: /^Record P2 again/ }).waitFor();
  const { evidence, takes } = (await ask(at.shop, `/api/jobs/${job}`)).body.job;
  const closed = evidence.map((one: { holdPoint: string; evidence: { take: string } }) => {
    const take = takes.find((known: { take: string }) => known.take === one.evidence.take);
    return `${one.holdPoint} by ${take.place}`;
  });
  expect(closed).toContain('channel C1 reaches by front left tweeter');
  expect(closed).toContain('driver D1 polarity by front left tweeter');
  expect(closed.filter((one: string) => /C2|L2|D2/.test(one))).toEqual([]);
  expect(takes.filter(({ place }: { place?: string }) => place === undefined)).toHaveLength(1);

  // By keys to the take of a place, set for the near walk, and back.
  await page.getByRole('link', { name: 'Record again at P2' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Back to the near walk' }).waitFor();
  expect(await sentence(page)).toMatch(/^front right tweeter next: near walk, sides in turn, at .30 dBFS\./);
  await page.getByRole('button', { name: 'Back to the near walk' }).click();
  await verdict(page, 0).waitFor();
  expect(complaints).toEqual([]);
  await close();
});

// How every screen looks and feels: sizes, themes, fingers, screen readers, and what it costs.
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { writeWav } from '../../src/signals/wav/write-wav.ts';
import {
  closeShop,
  dropRecording,
  hangUpJob,
  hangUpPlannedJob,
  openBench,
  openBrowser,
  openShop,
  type Shop,
  sentence,
  textOf,
} from './web-page.ts';
import { drawn, faultsShown, lookAtScreens, type ScreenToSee } from './web-screens.ts';

const folder = mkdtempSync(join(tmpdir(), 'kickpanel-look-'));
const toneWav = join(folder, 'tone.wav');
const covers = {
  A: 'resting',
  B: 'off',
  C: 'fastened',
  D: 'fastened',
  E: 'fastened',
  F: 'off',
  G: 'fastened',
} as const;

/** A calibrator's tone: 1 kHz at -20 dB re a full-scale square, 16 bits with dither, 44.1 kHz. */
function makeTone(): void {
  const rateHz = 44_100;
  const amplitude = Math.SQRT2 * 10 ** (-20 / 20);
  const samples = Float64Array.from(
    { length: 60 * rateHz },
    (_, n) => amplitude * Math.sin((2 * Math.PI * 1000 * n) / rateHz),
  );
  writeFileSync(toneWav, writeWav({ channels: [samples], rateHz, format: '16', dither: { seed: 1 } }));
}

let shop: Shop;
let browser: Browser;
/** Every screen, and what is there once it shows all that it has. */
let screens: ScreenToSee[];
/** What is wrong with the screen that greets a shop without jobs. */
let firstRunFaults: string[];
beforeAll(async () => {
  makeTone();
  shop = await openShop();
  browser = await openBrowser(toneWav);
  const greeted = await openBench(browser, shop, { touch: true });
  await greeted.page.goto('/');
  await greeted.page.getByText('Start with the vehicle in front of you.').waitFor();
  firstRunFaults = await faultsShown(greeted.page, 'first run');
  await greeted.close();
  const job = await hangUpJob(shop, { number: '0412', name: 'Grey van, 2019', bodyType: 'van', covers });
  const planned = await hangUpPlannedJob(shop, {
    number: '0415',
    name: 'Red hatchback',
    bodyType: 'hatchback',
    covers,
  });
  const asking = await hangUpJob(shop, { number: '0413', name: 'White roadster', bodyType: 'roadster' });
  const unseen = await hangUpJob(shop, { number: '0414', name: 'A boat', bodyType: 'other' });
  const { page, close } = await openBench(browser, shop);
  await dropRecording(page, job, 'examples/door.wav', 'examples/door.track.json');
  const reading = new URL(page.url()).pathname;
  await dropRecording(page, job, 'examples/door.wav', 'examples/door.track.json');
  // A take that cannot be read: nothing but quiet.
  const quietWav = join(folder, 'quiet.wav');
  writeFileSync(
    quietWav,
    writeWav({ channels: [new Float64Array(12 * 48_000)], rateHz: 48_000, format: '16', dither: { seed: 2 } }),
  );
  await page.goto(`/jobs/${job.id}/take`);
  await page.locator('.drop-here input[type=file]').setInputFiles([quietWav, 'examples/door.track.json']);
  await page.waitForURL(/\/takes\//);
  await page.getByText('No curve is shown: it would mislead.').waitFor({ timeout: 30_000 });
  const unreadable = new URL(page.url()).pathname;
  const takes = (await (await fetch(`${shop.url}/api/jobs/${job.id}`)).json()).job.takes as { take: string }[];
  await close();
  const takesPath = `/jobs/${job.id}/takes`;
  screens = [
    // What is unproven is counted after the list is there.
    { name: 'bench', path: '/', shows: '.jr .n b' },
    { name: 'new job', path: '/new', shows: '.bodies svg' },
    { name: 'job card, covers asked', path: `/jobs/${asking.id}`, shows: '.co .cst' },
    { name: 'take, covers asked', path: `/jobs/${asking.id}/take`, shows: '.asked svg' },
    { name: 'job card without a body', path: `/jobs/${unseen.id}`, shows: '.bodies svg' },
    { name: 'job card with a plan', path: `/jobs/${planned.id}`, shows: '.strip .unproven' },
    { name: 'job card', path: `/jobs/${job.id}`, shows: '.co .cst' },
    { name: 'take', path: `/jobs/${job.id}/take`, shows: '.drop-here' },
    { name: 'reading', path: reading, shows: '.plot-section >> nth=4' },
    { name: 'take that cannot be read', path: unreadable, shows: '.not-said' },
    { name: 'no takes', path: `/jobs/${asking.id}/takes`, shows: '.say p' },
    { name: 'takes', path: takesPath, shows: '.tl .open' },
    {
      name: 'comparison',
      path: `${takesPath}?compare=${takes
        .slice(0, 2)
        .map(({ take }) => take)
        .join(',')}`,
      shows: '.same2',
    },
    { name: 'live bands', path: `/jobs/${job.id}/live`, shows: '.lg' },
    { name: 'vehicle plans', path: '/vehicles', shows: '.measures' },
    { name: 'vehicle plans of a job', path: `/jobs/${job.id}/vehicles`, shows: '.measures' },
    { name: 'microphones', path: '/microphones', shows: '.mic-grid' },
    { name: 'settings', path: '/settings', shows: '.settings-grid' },
    { name: 'unknown job', path: '/jobs/none', shows: '.finding' },
    { name: 'unknown page', path: '/nothing', shows: 'h1' },
  ];
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await closeShop(shop);
  rmSync(folder, { recursive: true, force: true });
});

/** Opens a screen, and comes back once it shows all that it has, in its own type. */
async function settled(page: Page, screen: ScreenToSee): Promise<void> {
  await page.goto(screen.path);
  await page.locator(screen.shows).first().waitFor({ timeout: 30_000 });
  await drawn(page);
}

test('the screen that greets a shop without jobs fits, is read by screen readers, can be hit, and stands out', () => {
  expect(firstRunFaults).toEqual([]);
});

const screenOf = (name: string) => screens.find((screen) => screen.name === name) as ScreenToSee;

test('every screen fits, is read by screen readers, can be hit by fingers, and stands out in both themes', async () => {
  const { faults, complaints } = await lookAtScreens(browser, shop, screens);
  expect(faults).toEqual([]);
  // The unknown job is the only call that may fail, and the browser says so.
  expect(complaints.filter((text) => !text.includes('404'))).toEqual([]);
}, 240_000);

test('by touch alone: a card, its covers, a dropped recording, two takes compared', async () => {
  const { page, close } = await openBench(browser, shop, { width: 390, height: 844, touch: true });
  await page.goto('/new');
  await page.getByRole('radio', { name: /^Hatchback/ }).tap();
  await page.getByLabel('Vehicle', { exact: true }).tap();
  await page.keyboard.type('Small hatchback');
  await page.getByRole('button', { name: /^Hang up card/ }).tap();
  await page.getByText('The car has not been heard yet.').waitFor();
  await page.getByText('Which covers are off?').waitFor();
  await page.locator('svg.van [data-cover="A"]').tap();
  // Nothing is written down before the person has said how all of them stand.
  const asked = async () =>
    (await (await fetch(`${shop.url}${new URL(page.url()).pathname.replace('/jobs', '/api/jobs')}`)).json()).job.covers;
  expect(await asked()).toEqual([]);
  await page.getByRole('button', { name: /^The others are fastened A off/ }).tap();
  await page.getByText('One cover is off.').waitFor();
  expect(
    (await asked()).map(({ cover, state }: { cover: string; state: string }) => `${cover} ${state}`).sort(),
  ).toEqual(['A off', ...[...'BCDEFGH'].map((cover) => `${cover} fastened`)]);
  await page.getByRole('button', { name: /^Record the first take/ }).tap();
  await page.waitForURL('**/take');
  await page.locator('.drop-here input[type=file]').setInputFiles(['examples/door.wav', 'examples/door.track.json']);
  await page.waitForURL('**/takes/*');
  const plot = page.locator('.plot-touch').first();
  await plot.waitFor();
  await plot.scrollIntoViewIfNeeded();
  await plot.tap();
  expect(await textOf(page.locator('.plot-line').first())).toMatch(/Hz.*dB/s);
  await page.getByRole('contentinfo').getByRole('button', { name: 'All takes' }).tap();
  await page.getByRole('button', { name: /^Compare T1/ }).tap();
  await expect.poll(() => sentence(page)).toContain('T1 is chosen');
  await close();
}, 60_000);

test('keys: a question mark lists them, the theme is a button, numbers follow the settings', async () => {
  const { page, close } = await openBench(browser, shop);
  await settled(page, screenOf('reading'));
  expect(await sentence(page)).toMatch(/\d\.\d\d kHz/);
  await page.keyboard.press('?');
  await page.getByRole('dialog', { name: 'Keys' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: /^Light: daylight/ }).click();
  expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe('dim');
  await settled(page, screenOf('settings'));
  await page.getByRole('radio', { name: /^Comma/ }).check();
  await page.getByRole('radio', { name: /^Inches/ }).check();
  expect(await sentence(page)).toBe(
    'Numbers read like this: 1,61\u00a0kHz, \u22127,3\u00a0dB, 6,5\u00a0in, 8\u00a0AWG.',
  );
  await settled(page, screenOf('reading'));
  expect(await sentence(page)).toMatch(/\d,\d\d kHz/);
  await close();
}, 60_000);

test('the page opens when the shop is away, says so, and notices when it is back', async () => {
  const { page, close } = await openBench(browser, shop);
  await settled(page, screenOf('bench'));
  await page.evaluate(() => navigator.serviceWorker.ready);
  await shop.kill();
  await page.reload();
  await page.getByText("The shop's server does not answer.").waitFor();
  expect(await sentence(page)).toBe('The bench cannot be shown: the shop does not answer.');
  await page.getByText('Shop copy waits').waitFor();
  await shop.restart();
  await page.getByText('on the bench.').waitFor({ timeout: 30_000 });
  await close();
}, 90_000);

describe('a microphone', () => {
  test('is calibrated by a tone, kept by its name, and levels are sound pressure from then on', async () => {
    const { page, complaints, close } = await openBench(browser, shop);
    await page.goto('/microphones');
    await page.getByRole('button', { name: /^Listen for the tone/ }).click();
    const keep = page.getByRole('button', { name: /^(Keep this microphone|Calibrate it anew)/ });
    await expect.poll(() => textOf(keep), { timeout: 30_000 }).toMatch(/full scale is 11[34]\.\d dB SPL/);
    await keep.click();
    await page.getByText('One microphone reads in dB SPL.').waitFor();
    const { microphones } = await (await fetch(`${shop.url}/api/microphones`)).json();
    // 94 dB SPL at -20 dB re a full-scale square.
    expect(microphones[0].fullScaleSplDb).toBeCloseTo(114, 1);
    expect(microphones[0].method).toBe('calibrator, 94 dB at 1000 Hz');

    await page.goto('/live');
    await page.getByRole('button', { name: /^Listen/ }).click();
    // A 1 kHz tone of 94 dB is 94 dB(A).
    await page.getByText(/^9[34] dB\(A\)$/).waitFor({ timeout: 20_000 });
    // A screen reader hears of the band that the tone stands in, at the level that the microphone was calibrated to.
    const heard = async () =>
      /On average 1 kHz at ([\d.]+) dB SPL is the highest band/.exec(
        (await page.locator('.aba').getAttribute('aria-label')) ?? '',
      )?.[1];
    await expect.poll(async () => Math.abs(Number(await heard()) - 94), { timeout: 20_000 }).toBeLessThan(1);
    expect(complaints).toEqual([]);
    await close();
  }, 90_000);

  test('by figures reads what the figures say', async () => {
    const { page, close } = await openBench(browser, shop);
    await page.goto('/microphones');
    await page.getByRole('radio', { name: /^Figures/ }).check();
    await page.getByLabel('Reads at 94 dB SPL, dBFS').fill('-26');
    await page.getByRole('button', { name: /full scale is 123\.0 dB SPL/ }).waitFor();
    await page.getByLabel('Reads at 94 dB SPL, dBFS').fill('loud');
    await page.getByText('A number from -80 to 0 dBFS.').waitFor();
    await close();
  }, 30_000);
});

/** Frames that the screen draws in a while, and how long that was. */
function framesDrawn(page: Page, forMs: number): Promise<{ seconds: number; frames: number; moved: number }> {
  return page.evaluate(
    (ms) =>
      new Promise((resolve) => {
        const dot = document.querySelectorAll<HTMLElement>('.aba .dots i')[16];
        const started = performance.now();
        let frames = 0;
        let moved = 0;
        let last = '';
        const count = (now: number) => {
          frames++;
          const place = dot?.style.transform ?? '';
          if (place !== last) moved++;
          last = place;
          if (now - started > ms) resolve({ seconds: (now - started) / 1000, frames, moved });
          else requestAnimationFrame(count);
        };
        requestAnimationFrame(count);
      }),
    forMs,
  );
}

test('live bands draw every frame that the screen has, for less than a quarter of a core', async () => {
  const { page, close } = await openBench(browser, shop);
  await settled(page, screenOf('live bands'));
  const rate = ({ frames, seconds }: { frames: number; seconds: number }) => frames / seconds;
  const idle = rate(await framesDrawn(page, 2000));
  await page.getByRole('button', { name: /^Listen/ }).click();
  await page.locator('.aba canvas').waitFor();
  await page.waitForTimeout(2000);
  const devtools = await page.context().newCDPSession(page);
  // Time that the page's own thread has computed, whatever else the machine was doing.
  await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
  const spentS = async () =>
    (await devtools.send('Performance.getMetrics')).metrics.find(({ name }) => name === 'TaskDuration')?.value ??
    Number.NaN;
  const before = await spentS();
  const windows = [];
  for (let n = 0; n < 3; n++) windows.push(await framesDrawn(page, 1800));
  const seconds = windows.reduce((sum, window) => sum + window.seconds, 0);
  expect(((await spentS()) - before) / seconds).toBeLessThan(0.25);
  expect(Math.min(...windows.map(({ moved }) => moved))).toBeGreaterThan(0);
  // Measured against the same screen at rest, before and after, because a busy machine gives neither its sixty frames.
  await page.getByRole('button', { name: 'Let it go' }).click();
  const could = Math.min(idle, rate(await framesDrawn(page, 2000)));
  const best = Math.max(...windows.map(rate));
  expect(best).toBeGreaterThan(0.9 * could);
  if (could > 59) expect(best).toBeGreaterThan(57);
  await close();
}, 60_000);

test('the first load takes less than 250 kB of script, gzipped', () => {
  const assets = 'dist/web/assets';
  const first = readFileSync('dist/web/index.html', 'utf8');
  const scripts = readdirSync(assets).filter((file) => file.endsWith('.js') && first.includes(file));
  expect(scripts.length).toBeGreaterThan(0);
  const bytes = scripts.reduce((sum, file) => sum + gzipSync(readFileSync(join(assets, file))).length, 0);
  expect(bytes).toBeLessThan(250_000);
});

test('nothing in the built page reaches out of the shop', () => {
  const first = readFileSync('dist/web/index.html', 'utf8');
  expect(first).not.toMatch(/https?:\/\//);
  expect(first).not.toMatch(/<script(?![^>]*src=)/);
  const styles = readdirSync('dist/web/assets').filter((file) => file.endsWith('.css'));
  for (const file of styles)
    expect(readFileSync(join('dist/web/assets', file), 'utf8')).not.toMatch(/url\(["']?(https?:|data:)/);
});

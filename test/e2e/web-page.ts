// The real page in a real browser, on the real server: started, looked at, and spoken to in the installer's verbs.
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core';
import { howToGetChromium, installedChromium } from '../../scripts/chromium.ts';

export interface Shop {
  url: string;
  port: number;
  dataFolder: string;
  /** As the power does it. */
  kill(): Promise<void>;
  /** The same shop again, at the same address. */
  restart(): Promise<void>;
}

async function listening(child: ChildProcess): Promise<{ url: string; port: number }> {
  let said = '';
  child.stdout?.setEncoding('utf8');
  for await (const piece of child.stdout ?? []) {
    said += piece;
    if (said.includes('\n')) return JSON.parse(said) as { url: string; port: number };
  }
  throw new Error(`the server did not start: ${said}`);
}

/** The shop's server over a fresh data folder. */
export async function openShop(): Promise<Shop> {
  const dataFolder = mkdtempSync(join(tmpdir(), 'kickpanel-web-'));
  const start = (port: number): ChildProcess =>
    spawn(
      process.execPath,
      [resolve('bin/kickpanel'), 'serve', '--port', String(port), '--json', '--data', dataFolder],
      {
        stdio: ['ignore', 'pipe', 'inherit'],
      },
    );
  let child = start(0);
  const { url, port } = await listening(child);
  const gone = async (): Promise<void> => {
    if (child.exitCode !== null || child.signalCode !== null) return;
    child.kill('SIGKILL');
    await once(child, 'exit');
  };
  return {
    url: url.replace(/\/$/, ''),
    port,
    dataFolder,
    kill: gone,
    async restart() {
      await gone();
      child = start(port);
      await listening(child);
    },
  };
}

export async function closeShop(shop: Shop): Promise<void> {
  await shop.kill();
  rmSync(shop.dataFolder, { recursive: true, force: true });
}

/** A browser whose microphone hears `wav`; without one it hears the browser's own beeps. */
export async function openBrowser(wav?: string): Promise<Browser> {
  const executablePath = installedChromium();
  if (executablePath === null) throw new Error(howToGetChromium);
  return chromium.launch({
    executablePath,
    chromiumSandbox: false,
    args: [
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      ...(wav === undefined ? [] : [`--use-file-for-fake-audio-capture=${resolve(wav)}%noloop`]),
      '--autoplay-policy=no-user-gesture-required',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

export interface Bench {
  page: Page;
  context: BrowserContext;
  /** What the browser complained about: nothing may be here. */
  complaints: string[];
  /** The person goes home: nothing of theirs stays in the browser. */
  close(): Promise<void>;
}

interface Look {
  width?: number;
  height?: number;
  theme?: 'daylight' | 'dim';
  touch?: boolean;
  who?: string;
}

async function newContext(browser: Browser, shop: Shop, look: Look): Promise<BrowserContext> {
  const { width = 1280, height = 800, theme = 'daylight', touch = false, who = 'A. B.' } = look;
  const context = await browser.newContext({
    baseURL: shop.url,
    viewport: { width, height },
    hasTouch: touch,
    reducedMotion: 'reduce',
    locale: 'en-GB',
  });
  await context.addInitScript(
    (settings) => {
      if (localStorage.getItem('kickpanel.settings') === null) localStorage.setItem('kickpanel.settings', settings);
    },
    JSON.stringify({ theme, who, decimal: '.' }),
  );
  return context;
}

/** A browser's usual desk, where the page is at hand already: a fresh one takes two seconds to lay out. */
const usualDesks = new WeakMap<Browser, Promise<BrowserContext>>();

/** What a person leaves in the browser; the page's own files stay. */
const leftBehind = 'local_storage,indexeddb,file_systems';

/** A page on the shop, as a person with settings of their own. */
export async function openBench(browser: Browser, shop: Shop, look?: Look): Promise<Bench> {
  const made = (look === undefined ? usualDesks.get(browser) : undefined) ?? newContext(browser, shop, look ?? {});
  if (look === undefined) usualDesks.set(browser, made);
  const context = await made;
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  return {
    page,
    context,
    complaints,
    async close() {
      if (look !== undefined) return context.close();
      await page.goto('about:blank');
      const devtools = await context.newCDPSession(page);
      await devtools.send('Storage.clearDataForOrigin', { origin: shop.url, storageTypes: leftBehind });
      await page.close();
    },
  };
}

export const textOf = async (element: Locator): Promise<string> => (await element.textContent()) ?? '';

/** The sentence that the screen opens with. */
export const sentence = (page: Page): Promise<string> => textOf(page.locator('h1'));

interface Answer {
  status: number;
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every form
  body: any;
}

/**
 * A line of its own for each call: one that is kept open has been closed by the server while a command ran here, or died
 * with the server, and the next call on it would fail for that alone.
 */
export const onItsOwn = { connection: 'close' };

export async function ask(shop: Shop, path: string, method = 'GET', body?: unknown): Promise<Answer> {
  const answer = await fetch(`${shop.url}${path}`, {
    method,
    headers: { ...onItsOwn, ...(body === undefined ? {} : { 'content-type': 'application/json' }) },
    body: body === undefined ? null : JSON.stringify(body),
  });
  return { status: answer.status, body: await answer.json() };
}

export interface MadeJob {
  id: string;
  number: string;
}

/** A job as the page would have made it. */
export async function hangUpJob(
  shop: Shop,
  made: { number: string; name: string; bodyType: string; covers?: Record<string, 'off' | 'resting' | 'fastened'> },
): Promise<MadeJob> {
  const id = `job-${made.number}`;
  const wishes = [
    { command: 'createJob', name: made.name, number: made.number },
    { command: 'describeVehicle', name: made.name, bodyType: made.bodyType, steering: 'right', owner: 'Somebody' },
    { command: 'addNote', text: 'It buzzes when it is turned up.', about: 'asked for' },
    ...(made.covers
      ? [{ command: 'changeCovers', covers: Object.entries(made.covers).map(([cover, state]) => ({ cover, state })) }]
      : []),
  ];
  const requests = wishes.map((wish, n) => ({ id: `${id}-${n}`, who: 'A. B.', wish }));
  const { status, body } = await ask(shop, '/api/jobs', 'POST', { job: id, requests });
  if (status !== 201) throw new Error(JSON.stringify(body));
  return { id, number: made.number };
}

/** A job with the seven-channel plan, and the wishes given after it. */
export async function hangUpPlannedJob(
  shop: Shop,
  made: Parameters<typeof hangUpJob>[1],
  ...wishes: object[]
): Promise<MadeJob> {
  const job = await hangUpJob(shop, made);
  const all = [{ command: 'startPlanFromTemplate', template: 'seven-channel' }, ...wishes];
  const requests = all.map((wish, n) => ({ id: `${job.id}-plan-${n}`, who: 'A. B.', wish }));
  const { status, body } = await ask(shop, `/api/jobs/${job.id}/entries`, 'POST', { requests });
  if (status !== 201) throw new Error(JSON.stringify(body));
  return job;
}

/** Drops a recording and its track's description onto the take screen of a job. */
export async function dropRecording(page: Page, job: MadeJob, wav: string, track: string): Promise<void> {
  await page.goto(`/jobs/${job.id}/take?place=${encodeURIComponent('Left door')}`);
  await page.locator('.drop-here input[type=file]').setInputFiles([wav, track]);
  await page.waitForURL(/\/takes\//);
  await page.locator('.plot-section').first().waitFor();
}

/** Moves the focus on, key by key, until it stands on what goes by this name. */
export async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let step = 0; step < 120; step++) {
    await page.keyboard.press('Tab');
    const now = await page.evaluate(() => {
      const element = document.activeElement;
      if (!element) return '';
      const labels = (element as HTMLInputElement).labels;
      const label = labels && labels.length > 0 ? labels[0].textContent : null;
      return element.getAttribute('aria-label') ?? label ?? element.textContent ?? '';
    });
    if (name.test(now)) return;
  }
  throw new Error(`the focus never came to ${name}`);
}

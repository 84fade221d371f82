// Lead labels by the real command, looked at in a real browser: nothing leaves its label, and the codes can be scanned.
import { readFileSync } from 'node:fs';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { howToGetChromium, installedChromium } from '../../scripts/chromium.ts';
import { templatePlan } from '../../src/plan/templates/templates.ts';
import { scannedPixels } from '../print/scanned.ts';
import { type Workbench, workbench } from './kickpanel.ts';

const MM_PER_PX = 25.4 / 96;
/** Dots to a pixel of the page. */
const SCALE = 4;

interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

let bench: Workbench;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  bench = workbench();
  const executablePath = installedChromium();
  if (executablePath === null) throw new Error(howToGetChromium);
  browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  page = await browser.newPage({ viewport: { width: 800, height: 1130 }, deviceScaleFactor: SCALE });
});
afterAll(async () => {
  await browser?.close();
  bench.clear();
});

/** What the page looks like there: four bytes a dot. */
async function pixelsOf(clip: Box): Promise<{ pixels: Uint8ClampedArray; wide: number; high: number }> {
  const png = (await page.screenshot({ clip })).toString('base64');
  const { text, wide, high } = await page.evaluate(async (base64) => {
    const picture = new Image();
    picture.src = `data:image/png;base64,${base64}`;
    await picture.decode();
    const paint = new OffscreenCanvas(picture.width, picture.height).getContext(
      '2d',
    ) as OffscreenCanvasRenderingContext2D;
    paint.drawImage(picture, 0, 0);
    const { data } = paint.getImageData(0, 0, picture.width, picture.height);
    let text = '';
    for (let at = 0; at < data.length; at += 8192) text += String.fromCharCode(...data.subarray(at, at + 8192));
    return { text: btoa(text), wide: picture.width, high: picture.height };
  }, png);
  return { pixels: new Uint8ClampedArray(Buffer.from(text, 'base64')), wide, high };
}

const within = ({ x, y }: { x: number; y: number }, box: Box) =>
  x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;

test('are as large in the browser as on paper, with all ink inside, and open their lead when scanned', async () => {
  const plan = templatePlan('seven-channel');
  const [first, ...more] = plan.lead;
  const lead = [{ ...first, colour: 'white with a blue line and a very long description of it' }, ...more];
  const file = bench.write('plan.json', JSON.stringify({ schema: 'kickpanel.plan/1', ...plan, lead }));
  const data = ['--data', bench.path('data'), '--json'];
  const job = JSON.parse(bench.kickpanel('job', 'new', 'Four doors', ...data).stdout).job.id;
  const out = ['--out', bench.path('labels.svg'), '--height', '15', '--width', '30'];
  const { status, stdout } = bench.kickpanel('job', 'labels', job, '--plan', file, ...out, ...data);
  expect(status).toBe(0);

  await page.setContent(`<body style="margin:0">${readFileSync(bench.path('labels.svg'), 'utf8')}</body>`);
  const seen = await page.evaluate(() => {
    const boxes = (selector: string) =>
      [...document.querySelectorAll(selector)].map((element) => {
        const { x, y, width, height } = element.getBoundingClientRect();
        return { x, y, width, height };
      });
    return { page: boxes('svg')[0], cuts: boxes('.cut'), texts: boxes('text') };
  });
  expect(seen.page.width * MM_PER_PX).toBeCloseTo(210, 1);
  expect(seen.page.height * MM_PER_PX).toBeCloseTo(297, 1);
  expect(seen.cuts).toHaveLength(14);
  for (const { width, height } of seen.cuts) {
    expect(Math.abs(width * MM_PER_PX - 30)).toBeLessThan(0.15);
    expect(Math.abs(height * MM_PER_PX - 15)).toBeLessThan(0.15);
  }
  // A line of text is as wide as it was reckoned, whatever the font; the first text is the ruler's.
  const outside = seen.texts.slice(1).filter((text) => {
    const [left, right] = [text.x, text.x + text.width].map((x) => ({ x, y: text.y + text.height / 2 }));
    return !seen.cuts.some((cut) => within(left, cut) && within(right, cut));
  });
  expect(outside).toEqual([]);

  const labels = JSON.parse(stdout).scans.flatMap(({ text }: { text: string }) => [text, text]);
  for (const [n, { x, y, height }] of seen.cuts.entries()) {
    const { pixels, wide, high } = await pixelsOf({ x, y, width: height, height });
    expect(scannedPixels(pixels, wide, high)).toBe(labels[n]);
  }
  expect(labels[0]).toBe(`http://localhost:4870/jobs/${job}/leads/L11`);

  // Without the lines to cut along, no ink is left between the labels and around them.
  await page.addStyleTag({ content: '.cut{display:none}' });
  const bottom = Math.max(...seen.cuts.map(({ y, height }) => y + height)) + 4;
  const { pixels, wide, high } = await pixelsOf({ x: 0, y: 0, width: seen.page.width, height: bottom });
  let [inside, between] = [0, 0];
  for (let dot = 0; dot < wide * high; dot++) {
    if (pixels[4 * dot] >= 200) continue;
    const at = { x: (dot % wide) / SCALE, y: Math.floor(dot / wide) / SCALE };
    if (seen.cuts.some((cut) => within(at, cut))) inside++;
    else between++;
  }
  expect(between).toBe(0);
  expect(inside).toBeGreaterThan(10_000);
});

test('as PDF come out of the built command in a folder of their own, with status 2 where they cannot', () => {
  const plan = JSON.stringify({ schema: 'kickpanel.plan/1', ...templatePlan('seven-channel') });
  const file = bench.write('seven.json', plan);
  const made = bench.kickpanel('job', 'labels', '--plan', file, '--out', bench.path('labels.pdf'));
  expect([made.status, made.stderr]).toEqual([0, '']);
  expect(readFileSync(bench.path('labels.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  expect(bench.kickpanel('job', 'labels', '--plan', file, '--out', bench.path('labels.doc')).status).toBe(2);
});

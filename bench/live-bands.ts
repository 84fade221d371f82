// What the live bands cost: frames a second with and without them in one run, and the time of the page's own thread.
// Call: npx tsx bench/live-bands.ts [SECONDS]
import { closeShop, openBench, openBrowser, openShop } from '../test/e2e/web-page.ts';
import { table } from './figures.ts';

const seconds = Number(process.argv[2] ?? 10);

interface Measured {
  framesPerS: number;
  /** Longest time between two frames, ms. */
  longestMs: number;
  /** Of one core, 0 .. 1: all tasks of the page's thread. */
  share: number;
  scriptShare: number;
}

async function run(): Promise<{ rest: Measured; live: Measured }> {
  const shop = await openShop();
  const browser = await openBrowser('examples/door.wav');
  try {
    const { page } = await openBench(browser, shop);
    // The runner marks functions with their names by a helper that a page does not have.
    await page.addInitScript('globalThis.__name = (named) => named');
    const devtools = await page.context().newCDPSession(page);
    await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
    const metric = async (name: string): Promise<number> => {
      const { metrics } = await devtools.send('Performance.getMetrics');
      return metrics.find((each) => each.name === name)?.value ?? Number.NaN;
    };
    const measured = async (): Promise<Measured> => {
      const [taskS, scriptS] = [await metric('TaskDuration'), await metric('ScriptDuration')];
      const frames = await page.evaluate(
        (ms) =>
          new Promise<{ count: number; lastedMs: number; longestMs: number }>((resolve) => {
            const begun = performance.now();
            let [count, last, longestMs] = [0, begun, 0];
            const frame = (now: number) => {
              count++;
              longestMs = Math.max(longestMs, now - last);
              last = now;
              if (now - begun > ms) resolve({ count, lastedMs: now - begun, longestMs });
              else requestAnimationFrame(frame);
            };
            requestAnimationFrame(frame);
          }),
        1000 * seconds,
      );
      const lastedS = frames.lastedMs / 1000;
      return {
        framesPerS: frames.count / lastedS,
        longestMs: frames.longestMs,
        share: ((await metric('TaskDuration')) - taskS) / lastedS,
        scriptShare: ((await metric('ScriptDuration')) - scriptS) / lastedS,
      };
    };
    await page.goto('/live');
    await page.locator('.lg').waitFor();
    await page.waitForTimeout(1500);
    const rest = await measured();
    await page.getByRole('button', { name: /^Listen/ }).click();
    await page.locator('.aba canvas').waitFor();
    await page.waitForTimeout(2000);
    return { rest, live: await measured() };
  } finally {
    await browser.close();
    await closeShop(shop);
  }
}

run().then(({ rest, live }) => {
  const row = (name: string, { framesPerS, longestMs, share, scriptShare }: Measured) => [
    name,
    framesPerS.toFixed(1),
    `${longestMs.toFixed(0)} ms`,
    `${(100 * share).toFixed(1)} %`,
    `${(100 * scriptShare).toFixed(1)} %`,
  ];
  const head = ['live bands, 1280 x 800', 'frames a second', 'longest gap', 'of one core', 'of it script'];
  process.stdout.write(`${table([head, row('at rest', rest), row('listening', live)])}\n`);
});

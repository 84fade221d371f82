// Takes the pictures of the README from the app itself, so that they show what it says and nothing else.
import { mkdirSync } from 'node:fs';
import { closeShop, dropRecording, hangUpJob, openBench, openBrowser, openShop } from '../test/e2e/web-page.ts';

const folder = 'docs/pictures';
mkdirSync(folder, { recursive: true });
const shop = await openShop();
const browser = await openBrowser();
try {
  const job = await hangUpJob(shop, {
    number: '0412',
    name: 'Grey van, 2019',
    bodyType: 'van',
    covers: { A: 'resting', B: 'fastened', C: 'fastened', D: 'fastened', E: 'fastened', F: 'off', G: 'fastened' },
  });
  const { page } = await openBench(browser, shop);
  await dropRecording(page, job, 'examples/door.wav', 'examples/door.track.json');
  await page.evaluate(() => document.fonts.ready);
  await page.screenshot({ path: `${folder}/reading.png` });
  await page.goto(`/jobs/${job.id}`);
  await page.locator('.co .cst').first().waitFor();
  await page.evaluate(() => document.fonts.ready);
  await page.screenshot({ path: `${folder}/job-card.png` });
} finally {
  await browser.close();
  await closeShop(shop);
}

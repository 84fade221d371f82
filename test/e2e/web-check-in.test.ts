// The car looked over in a real browser: photos by the camera's input, readings, sounds, and what became of it at Refit.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, describe, expect, test } from 'vitest';
import { jpegPhoto } from '../job/photos.ts';
import { openedForAll } from './web-hooks.ts';
import { ask, hangUpJob, openBench, sentence, tabTo, textOf } from './web-page.ts';
import { lookAtScreens } from './web-screens.ts';

const at = openedForAll();
const folder = mkdtempSync(join(tmpdir(), 'kickpanel-check-in-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function photo(name: string, content: Uint8Array = jpegPhoto(name, { widthPx: 320, heightPx: 200 })): string {
  writeFileSync(join(folder, name), content);
  return join(folder, name);
}
const card = (page: Page, check: string): Locator => page.locator(`[data-check="${check}"]`);
const hangUp = (number: string) => hangUpJob(at.shop, { number, name: `Van ${number}`, bodyType: 'van' });

describe('a car that comes', () => {
  test('is photographed, read and listened to with a thumb; what is wrong stays as it was typed', async () => {
    const job = await hangUp('0701');
    const { page, complaints, close } = await openBench(at.browser, at.shop, { width: 390, height: 844, touch: true });
    await page.goto(`/jobs/${job.id}`);
    await page.getByRole('link', { name: /Arrive/ }).click();
    await page.waitForURL(/\/arrive$/);
    // The screen is fetched when it is first opened.
    await expect.poll(() => sentence(page)).toBe('Look the car over before anything is touched.');

    await card(page, 'complaint').getByLabel('What the owner says is wrong').fill('Turn it up and it buzzes.');
    await card(page, 'complaint').getByRole('button', { name: 'Keep these words' }).click();
    await page.locator('blockquote', { hasText: 'it buzzes' }).waitFor();

    const nose = card(page, 'nose');
    const input = nose.locator('input[type=file]');
    expect(await input.getAttribute('capture')).toBe('environment');
    await input.setInputFiles(photo('page.jpg', Buffer.from('<script>alert(1)</script>')));
    await page.getByRole('alert').getByText('neither JPEG nor PNG').waitFor();
    await input.setInputFiles(photo('nose.jpg'));
    const picture = nose.locator('.given img');
    await picture.waitFor();
    // A browser shows it, so the picture is one.
    await expect.poll(() => picture.evaluate((image) => (image as HTMLImageElement).naturalWidth)).toBe(320);

    await card(page, 'resting-volts').getByLabel('Resting volts, V').fill('12,58');
    await card(page, 'resting-volts').getByRole('button', { name: 'Keep Resting volts' }).click();
    await card(page, 'resting-volts').getByText('12.58 V').waitFor();
    const draw = card(page, 'standby-draw');
    await draw.getByLabel('Draw while locked, A').fill('0.33');
    await draw.getByLabel('Minutes since locking').fill('10');
    await draw.getByRole('button', { name: 'Keep Draw while locked' }).click();
    await draw.getByText('Perhaps not asleep yet').waitFor();

    await card(page, 'radio').getByRole('button', { name: 'Radio reception: Fine' }).click();
    await card(page, 'radio').locator('.given').waitFor();
    await page.getByLabel('Mark 1: what and where').fill('Scratch, left sill');
    await page.locator('.add-mark input[type=file]').setInputFiles(photo('sill.jpg'));
    await card(page, 'mark-1').getByText('Scratch, left sill').waitFor();

    const { body } = await ask(at.shop, `/api/jobs/${job.id}`);
    expect(body.job.photos.map(({ name }: { name: string }) => name)).toEqual(['Nose, Arrive', 'Mark 1, Arrive']);
    expect(body.personal.complaint.value).toBe('Turn it up and it buzzes.');
    expect(JSON.stringify(body.job)).not.toContain('it buzzes.');
    await page.locator('.bar .undo').click();
    await expect.poll(() => card(page, 'mark-1').count()).toBe(0);
    // The refused photo is the only thing that the browser itself complains about.
    expect(complaints.filter((text) => !text.includes('422'))).toEqual([]);
    await close();
  }, 90_000);

  test('is looked over by keys alone', async () => {
    const job = await hangUp('0702');
    const { page, close } = await openBench(at.browser, at.shop);
    await page.goto(`/jobs/${job.id}/arrive`);
    await card(page, 'locks').waitFor();
    await tabTo(page, /^Locks: A fault$/);
    await page.keyboard.press('Enter');
    await card(page, 'locks').getByLabel('What is wrong: Locks').fill('boot by the key only');
    await page.keyboard.press('Enter');
    await card(page, 'locks').getByText('boot by the key only').waitFor();
    await close();
  }, 60_000);
});

describe('the same car at Refit', () => {
  const wish = (command: string, more: object) => ({ command, ...more });
  const check = (stage: string, id: string, found: object) => wish('recordCheck', { at: stage, check: id, found });

  test('shows first what is not as it came, at every size and in both themes', async () => {
    const job = await hangUp('0703');
    const bytes = jpegPhoto('tail', { widthPx: 320, heightPx: 200 });
    const kept = await fetch(`${at.shop.url}/api/photos`, {
      method: 'PUT',
      headers: { 'content-type': 'image/jpeg' },
      body: new Uint8Array(bytes),
    });
    const { sha256, bytes: size, type } = (await kept.json()) as { sha256: string; bytes: number; type: string };
    const wishes = [
      wish('attachPhoto', { photo: sha256, bytes: size, type, name: 'Tail, Arrive' }),
      check('arrive', 'complaint', { how: 'said', words: 'At the stops nobody at the back can hear the story.' }),
      check('arrive', 'tail', { how: 'photo', photo: sha256 }),
      check('arrive', 'radio', { how: 'seen', found: 'ok' }),
      check('arrive', 'standby-draw', { how: 'measured', value: 3.1, unit: 'A', afterMin: 0 }),
      check('arrive', 'standby-draw', { how: 'measured', value: 24, unit: 'mA', afterMin: 25 }),
      check('refit', 'radio', { how: 'seen', found: 'fault', words: 'weak stations are gone' }),
      check('refit', 'mark-1', { how: 'seen', found: 'fault', words: 'scuff on the load floor' }),
    ];
    const requests = wishes.map((one, n) => ({ id: `refit-${n}`, who: 'A. B.', wish: one }));
    expect((await ask(at.shop, `/api/jobs/${job.id}/entries`, 'POST', { requests })).status).toBe(201);

    const { page, close } = await openBench(at.browser, at.shop);
    await page.goto(`/jobs/${job.id}/refit`);
    await page.locator('.differences').waitFor();
    expect(await sentence(page)).toMatch(/^Worse than it came: radio reception and mark 1\./);
    expect(await textOf(page.locator('.differences'))).toContain('It was fine when it came');
    await card(page, 'tail').getByRole('button', { name: 'Tail: As it came' }).click();
    await card(page, 'tail').getByText('Looked over again: as it came.').waitFor();
    await close();

    const { faults, complaints } = await lookAtScreens(at.browser, at.shop, [
      { name: 'arrive', path: `/jobs/${job.id}/arrive`, shows: '.given img' },
      { name: 'refit', path: `/jobs/${job.id}/refit`, shows: '.differences' },
    ]);
    expect(faults).toEqual([]);
    expect(complaints).toEqual([]);
  }, 180_000);
});

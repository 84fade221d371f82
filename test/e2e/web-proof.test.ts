// What must be proven, in a real browser: evidence given in place, covers fastened over what is open, gains read.
import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { openedForAll } from './web-hooks.ts';
import { ask, hangUpPlannedJob, type MadeJob, openBench, sentence, textOf } from './web-page.ts';
import { lookAtScreens } from './web-screens.ts';

const at = openedForAll();

/** A hatchback with the seven-channel plan; its left door card is B on the drawing. */
function plannedJob(number: string, ...wishes: object[]): Promise<MadeJob> {
  const covers = { A: 'off', B: 'resting', C: 'off', D: 'off', E: 'off', F: 'off', G: 'off', H: 'off' } as const;
  return hangUpPlannedJob(at.shop, { number, name: `Proof ${number}`, bodyType: 'hatchback', covers }, ...wishes);
}

const pointRow = (page: Page, id: string): Locator => page.locator(`[data-point="${id}"]`).first();

/** What the journal holds of one kind, the oldest first. */
async function entriesOf(job: MadeJob, kind: string): Promise<Record<string, unknown>[]> {
  const { body } = await ask(at.shop, `/api/jobs/${job.id}/entries`);
  return (body.entries as { kind: string; data: Record<string, unknown> }[])
    .filter((entry) => entry.kind === kind)
    .map(({ data }) => data);
}

describe('a hold point', () => {
  test('stays open at a value outside its range, and is closed by one within, typed with a comma', async () => {
    const job = await plannedJob('0601');
    const { page, complaints, close } = await openBench(at.browser, at.shop);
    await page.goto(`/jobs/${job.id}/hold-points?cover=door-left`);
    const row = pointRow(page, 'load N5 coils');
    await row.waitFor();
    expect(await sentence(page)).toBe('Left door card hides four unproven points.');
    // The strip says of no stage that it is done, and the main action is about this cover alone.
    expect(await page.locator('.strip .before').count()).toBe(5);
    expect(await page.locator('.strip .done').count()).toBe(0);
    expect(await textOf(page.locator('.bar .main'))).toMatch(/clears three points/);
    await row.getByRole('button', { name: /^Give evidence/ }).click();
    // Two coils of 3.2 ohm side by side would be 1.6 ohm.
    await row.getByLabel('The meter reads').fill('1,6');
    await row.getByText('outside: the point stays open').waitFor();
    await row.getByRole('button', { name: 'Give this evidence' }).click();
    await row.locator('.given .outside').waitFor();
    expect(await textOf(row.locator('.state'))).toBe('open');
    expect(await textOf(row.locator('.why'))).toMatch(/^It reads 1\.6 ohm; expected is 2\.88 to 3\.52 ohm\./);
    await row.getByRole('button', { name: /^Give evidence/ }).click();
    await row.getByLabel('The meter reads').fill('3,2');
    await row.getByText('within what is expected').waitFor();
    await row.getByRole('button', { name: 'Give this evidence' }).click();
    await expect.poll(() => textOf(row.locator('.state'))).toBe('closed');
    expect(await sentence(page)).toBe('Left door card hides three unproven points.');
    expect(await entriesOf(job, 'evidence-given')).toMatchObject([
      { holdPoints: ['load N5 coils'], evidence: { how: 'measured', value: 1.6, unit: 'ohm' } },
      { holdPoints: ['load N5 coils'], evidence: { how: 'measured', value: 3.2, unit: 'ohm' } },
    ]);
    expect(complaints).toEqual([]);
    await close();
  }, 60_000);

  test("is closed by somebody's word with a name, and opened again when what it rests on changes", async () => {
    const job = await plannedJob('0602');
    const { page, close } = await openBench(at.browser, at.shop);
    await page.goto(`/jobs/${job.id}/hold-points`);
    const row = pointRow(page, 'lead L15 connected');
    await row.getByRole('button', { name: /^Give evidence/ }).click();
    await row.getByLabel('Seen and found right by').fill('');
    await row.getByRole('button', { name: 'Give this evidence' }).click();
    await row.getByText('Give the name of whoever saw it.').waitFor();
    await row.getByLabel('Seen and found right by').fill('Ann');
    await row.getByRole('button', { name: 'Give this evidence' }).click();
    await row.getByText('Seen and found right by Ann.').waitFor();
    const { body } = await ask(at.shop, `/api/jobs/${job.id}`);
    const lead = body.job.plan.parts.lead.find(({ id }: { id: string }) => id === 'L15');
    const wish = { command: 'setPlanPart', part: 'lead', id: 'L15', value: { ...lead, from: 'B/2' } };
    await ask(at.shop, `/api/jobs/${job.id}/entries`, 'POST', { requests: [{ id: 'moved', who: 'A. B.', wish }] });
    await expect.poll(() => textOf(row.locator('.state'))).toBe('re-opened');
    expect(await textOf(row.locator('.why'))).toContain('L15');
    await close();
  }, 60_000);
});

describe('a cover that is fastened over what is unproven', () => {
  test('shows what that is and the shortest tests, and takes a name and a reason for the journal', async () => {
    const job = await plannedJob('0604');
    const { page, complaints, close } = await openBench(at.browser, at.shop);
    await page.goto(`/jobs/${job.id}`);
    const card = page.locator('[data-callout="B"]');
    await card.getByText('keep off, 4 unproven').waitFor();
    await card.getByRole('button', { name: /^Left front door: resting/ }).click();
    const sheet = page.getByRole('dialog', { name: 'Fasten Left front door' });
    await sheet.getByRole('heading', { name: 'Left front door hides four unproven points.' }).waitFor();
    expect(await sheet.locator('.unproven b').allTextContents()).toEqual([
      'Lead L15',
      'Coils on B/1',
      'Channel C5',
      'D5 polarity',
    ]);
    // One walk near the driver hears three of them; the coils take a meter.
    expect(await sheet.locator('.tests b').allTextContents()).toEqual([
      'Takes near each driver',
      'Meter: Coils on B/1',
    ]);
    // Nothing is fastened without a reason.
    await sheet.getByRole('button', { name: 'Fasten anyway' }).click();
    await sheet.getByText('Say why; it stands in the journal.').waitFor();
    expect(await entriesOf(job, 'covers-changed')).toHaveLength(1);
    await sheet.getByLabel('Who answers for it').fill('Ben');
    await sheet.getByLabel('Why it may be').fill('The car goes home tonight.');
    await sheet.getByRole('button', { name: 'Fasten anyway' }).click();
    await sheet.waitFor({ state: 'detached' });
    await card.getByText('lift again, 4 unproven').waitFor();
    expect(await textOf(card.locator('.passed-over'))).toMatch(/4 unproven points by Ben.*The car goes home tonight\./);
    const holdPoints = ['lead L15 connected', 'load N5 coils', 'channel C5 reaches', 'driver D5 polarity'];
    expect((await entriesOf(job, 'covers-changed')).at(-1)).toEqual({
      covers: [{ cover: 'B', state: 'fastened' }],
      passedOver: { name: 'Ben', why: 'The car goes home tonight.', open: [{ cover: 'B', holdPoints }] },
    });
    expect(complaints).toEqual([]);
    await close();
  }, 60_000);

  test('asks on the take screen too, may be taken off again, and is fastened plainly once nothing is open', async () => {
    const job = await plannedJob('0606');
    const { page, complaints, close } = await openBench(at.browser, at.shop);
    await page.goto(`/jobs/${job.id}/take`);
    await page.locator('.covers').getByRole('button', { name: 'Change' }).click();
    await page.getByRole('button', { name: /^Left front door: resting. Change/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Take it off' }).click();
    const door = page.getByRole('button', { name: /^Left front door: off. Change/ });
    await door.waitFor();
    const holdPoints = ['lead L15 connected', 'channel C5 reaches', 'driver D5 polarity'];
    const wishes = [
      { command: 'giveEvidence', holdPoints, evidence: { how: 'seen', name: 'Ann' } },
      {
        command: 'giveEvidence',
        holdPoints: ['load N5 coils'],
        evidence: { how: 'measured', value: 3.2, unit: 'ohm' },
      },
    ];
    const requests = wishes.map((wish, n) => ({ id: `proof-${n}`, who: 'A. B.', wish }));
    expect((await ask(at.shop, `/api/jobs/${job.id}/entries`, 'POST', { requests })).status).toBe(201);
    await door.click();
    await page.getByRole('button', { name: /^Left front door: resting. Change/ }).click();
    await page.getByRole('button', { name: /^Left front door: fastened. Change/ }).waitFor();
    expect((await entriesOf(job, 'covers-changed')).at(-1)).toEqual({ covers: [{ cover: 'B', state: 'fastened' }] });
    expect(complaints).toEqual([]);
    await close();
  }, 60_000);
});

test('gains: what the meter reads gets its verdict at once, and is kept as evidence', async () => {
  const job = await plannedJob('0603');
  const { page, complaints, close } = await openBench(at.browser, at.shop);
  await page.goto(`/jobs/${job.id}/gains`);
  const card = pointRow(page, 'gain A/1 set');
  await card.waitFor();
  expect(await sentence(page)).toBe('A/1: turn the gain up until the meter reads 1 V at 333 Hz.');
  await page.getByText('Unplug the speakers before a tone plays').waitFor();
  const volts = card.getByLabel('Meter on A/1, AC volts');
  await page.getByRole('button', { name: /^Type what A\/1 reads/ }).click();
  expect(await volts.evaluate((input) => input === document.activeElement)).toBe(true);
  // 20 log10(0.5 / 1) = -6.02 dB
  await volts.fill('0,5');
  await card.getByText('up by 6.0 dB').waitFor();
  await page.keyboard.press('Enter');
  await card.getByText('It stays open.').waitFor();
  expect(await textOf(card.locator('.state'))).toBe('open');
  await volts.fill('1.01');
  await card.getByText('within, 0.1 dB off').waitFor();
  await card.getByRole('button', { name: 'Keep A/1' }).click();
  await expect.poll(() => textOf(card.locator('.state'))).toBe('closed');
  await expect.poll(() => sentence(page)).toMatch(/^A\/2: /);
  expect(await entriesOf(job, 'evidence-given')).toMatchObject([
    { holdPoints: ['gain A/1 set'], evidence: { how: 'measured', value: 0.5, unit: 'V' } },
    { holdPoints: ['gain A/1 set'], evidence: { how: 'measured', value: 1.01, unit: 'V' } },
  ]);
  expect(complaints).toEqual([]);
  await close();
}, 60_000);

test('the screens fit, are read by screen readers, can be hit by fingers, and stand out in both themes', async () => {
  const job = await plannedJob('0605', {
    command: 'giveEvidence',
    holdPoints: ['gain A/1 set'],
    evidence: { how: 'measured', value: 0.5, unit: 'V' },
  });
  const { faults, complaints } = await lookAtScreens(at.browser, at.shop, [
    {
      name: 'hold points',
      path: `/jobs/${job.id}/hold-points?cover=door-left`,
      shows: '.evidence',
      press: [/^Give evidence for Coils on B/],
    },
    {
      name: 'fastening a cover',
      path: `/jobs/${job.id}`,
      shows: 'dialog.fasten',
      press: [/^Left front door: resting. Change/],
    },
    { name: 'gains', path: `/jobs/${job.id}/gains`, shows: '.channel' },
  ]);
  expect(faults).toEqual([]);
  expect(complaints).toEqual([]);
}, 60_000);

import { chmodSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { does, freshFolder } from '../../test/job/workshops.ts';
import { dataFolderFor, openWorkshop } from './data-folder.ts';

let folder: string;
beforeEach(() => {
  folder = join(freshFolder(), 'data');
});
afterEach(() => rmSync(join(folder, '..'), { recursive: true, force: true }));

test('the folder is the one asked for, else that of the environment, else one in the home', () => {
  expect(dataFolderFor('/a', { KICKPANEL_DATA: '/b' })).toBe('/a');
  expect(dataFolderFor(undefined, { KICKPANEL_DATA: '/b' })).toBe('/b');
  expect(dataFolderFor('', { KICKPANEL_DATA: '' })).toBe(join(homedir(), 'Kickpanel'));
  expect(dataFolderFor('jobs', {})).toBe(join(process.cwd(), 'jobs'));
});

describe('a data folder', () => {
  test('is made, explains itself, and is for its owner alone', async () => {
    const { close } = await openWorkshop(folder);
    expect(readFileSync(join(folder, 'README.txt'), 'utf8')).toContain('recordings/');
    expect(readdirSync(folder)).toEqual(
      expect.arrayContaining(['README.txt', 'device', 'incoming', 'journal.db', 'recordings', 'tracks']),
    );
    if (process.platform !== 'win32') expect(statSync(folder).mode & 0o077).toBe(0);
    await close();
  });

  test('writes under one name for ever', async () => {
    const first = await openWorkshop(folder);
    await does(first.workshop, 'j1', { command: 'createJob', name: 'x', purpose: 'car' });
    await first.close();
    const second = await openWorkshop(folder);
    expect(second.workshop.device).toBe(first.workshop.device);
    expect((await second.workshop.journals.entries('j1'))[0].device).toBe(first.workshop.device);
    await second.close();
  });

  test('a name cut short by a crash is made anew', async () => {
    mkdirSync(folder);
    writeFileSync(join(folder, 'device'), '');
    const { workshop, close } = await openWorkshop(folder);
    expect(workshop.device).toMatch(/^[0-9a-f-]{36}$/);
    await close();
  });

  test('that cannot be is refused in words', async () => {
    writeFileSync(folder, 'a file');
    await expect(openWorkshop(folder)).rejects.toMatchObject({ issue: { code: expect.any(String), where: folder } });
  });

  test('that may not be written is refused in words', async () => {
    mkdirSync(folder);
    chmodSync(folder, 0o500);
    // Root may write anywhere, and is not refused.
    if (process.getuid?.() === 0) {
      const { close } = await openWorkshop(folder);
      await close();
    } else {
      await expect(openWorkshop(folder)).rejects.toMatchObject({ issue: { code: 'data-not-allowed' } });
    }
    chmodSync(folder, 0o700);
  });
});

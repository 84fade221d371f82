// One set of tests for every kind of content store: what the contract promises.
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { hashOfBytes } from '../../test/crash/busy-clients.ts';
import { freshFolder } from '../../test/job/workshops.ts';
import { failure, success } from '../base/result.ts';
import type { ContentStore } from './content-store.ts';
import { hashOf, piecesOf } from './file-hash.ts';
import { realFileSystem } from './file-system.ts';
import { folderContentStore } from './folder-content-store.ts';
import { memoryContentStore } from './memory-content-store.ts';

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

const folderOf = (): string => {
  folders.push(freshFolder());
  return folders[folders.length - 1];
};

const bytes = Uint8Array.from({ length: 300_000 }, (_, n) => (n * n) & 255);
const hash = hashOfBytes(bytes);
const pieces = [bytes.subarray(0, 1), bytes.subarray(1, 200_000), bytes.subarray(200_000)];
const any = { bytesMax: 1e6, check: () => success('looked at') };

const stores = [
  ['memory', async () => memoryContentStore()],
  ['a folder', async () => folderContentStore(folderOf(), realFileSystem)],
] as const;
const cases = stores.flatMap(([place, make]) =>
  (['recordings', 'photos'] as const).map((kind) => [kind, place, make] as const),
);

describe.each(cases)('%s in a content store in %s', (kind, _, make) => {
  let store: ContentStore;
  beforeEach(async () => {
    store = await make();
  });

  test('keeps content under its hash and gives it back', async () => {
    expect(await store.receive(kind, pieces, any)).toEqual({
      ok: true,
      value: { sha256: hash, bytes: 300_000, isNew: true, checked: 'looked at' },
    });
    expect(await store.size(kind, hash)).toBe(300_000);
    const source = await store.open(kind, hash);
    expect(source?.read(199_990, 20)).toEqual(bytes.subarray(199_990, 200_010));
    expect(source && (await hashOf(source))).toBe(hash);
    source?.close();
    expect(await store.list(kind)).toEqual([hash]);
  });

  test('knows what it has, and keeps the kinds apart', async () => {
    await store.receive(kind, pieces, any);
    expect(await store.receive(kind, [bytes], any)).toMatchObject({ value: { isNew: false, sha256: hash } });
    expect(await store.size('tracks', hash)).toBeNull();
    expect(await store.open('tracks', hash)).toBeNull();
    expect(await store.size(kind, hashOfBytes(new Uint8Array(0)))).toBeNull();
  });

  test.each([
    ['too much', { ...any, bytesMax: 299_999 }, 'too-large'],
    ['something else than was announced', { ...any, sha256: hashOfBytes(new Uint8Array(1)) }, 'content-differs'],
    ['what does not pass', { ...any, check: () => failure({ code: 'ugly', message: 'no' }) }, 'ugly'],
  ])('does not keep %s', async (_what, limits, code) => {
    expect(await store.receive(kind, pieces, limits)).toMatchObject({ ok: false, issues: [{ code }] });
    expect(await store.list(kind)).toEqual([]);
  });

  test('shows the whole content to the one who looks at it', async () => {
    const seen: number[] = [];
    await store.receive(kind, pieces, {
      bytesMax: 1e6,
      check: (source) => {
        seen.push(source.byteLength, ...source.read(299_999, 1));
        return success(null);
      },
    });
    expect(seen).toEqual([300_000, bytes[299_999]]);
  });

  test('keeps nothing of what breaks off, and the reason comes through', async () => {
    const lost = new Error('the sender is gone');
    async function* broken() {
      yield pieces[0];
      throw lost;
    }
    await expect(store.receive(kind, broken(), any)).rejects.toBe(lost);
    expect(await store.list(kind)).toEqual([]);
  });

  test('keeps nothing of what looks fine to nobody', async () => {
    const fault = new Error('ours');
    const check = () => {
      throw fault;
    };
    await expect(store.receive(kind, pieces, { bytesMax: 1e6, check })).rejects.toThrow('ours');
    expect(await store.list(kind)).toEqual([]);
  });

  test('gives out any part in pieces', async () => {
    await store.receive(kind, pieces, any);
    const source = await store.open(kind, hash);
    if (source === null) throw new Error('it must be there');
    const parts: Uint8Array[] = [];
    for await (const piece of piecesOf(source, 5, 290_000)) parts.push(piece);
    source.close();
    expect(Buffer.concat(parts).equals(Buffer.from(bytes.subarray(5, 290_000)))).toBe(true);
  });
});

describe('a folder', () => {
  test('holds nothing but complete files, each where its name says', async () => {
    const folder = folderOf();
    const store = await folderContentStore(folder, realFileSystem);
    await store.receive('recordings', pieces, any);
    await store.receive('recordings', pieces, { ...any, bytesMax: 10 });
    expect(readdirSync(join(folder, 'incoming'))).toEqual([]);
    expect(readFileSync(join(folder, 'recordings', hash.slice(0, 2), `${hash}.wav`)).equals(Buffer.from(bytes))).toBe(
      true,
    );
    expect(store.path('recordings', hash)).toBe(join(folder, 'recordings', hash.slice(0, 2), `${hash}.wav`));
  });

  test('keeps photos in a folder of their own, synced in the same order', async () => {
    const calls: string[] = [];
    const told = (name: 'rename' | 'syncFolder') => async (path: string, to?: string) => {
      calls.push(`${name} ${(to ?? path).replace(/^.*(?=\/(photos|kickpanel))/, '').slice(0, 10)}`);
      return name === 'rename' ? realFileSystem.rename(path, to as string) : realFileSystem.syncFolder(path);
    };
    const folder = folderOf();
    const files = { ...realFileSystem, rename: told('rename'), syncFolder: told('syncFolder') };
    const store = await folderContentStore(folder, files);
    await store.receive('photos', pieces, any);
    expect(store.path('photos', hash)).toBe(join(folder, 'photos', hash.slice(0, 2), `${hash}.image`));
    const shard = `/photos/${hash.slice(0, 2)}`;
    expect(calls).toEqual([`syncFolder /photos`, `rename ${shard}`, `syncFolder ${shard}`]);
  });

  test('is swept of what a dead process left, and a living one is left to finish', async () => {
    const folder = folderOf();
    mkdirSync(join(folder, 'incoming'));
    const dead = 2 ** 22 - 2;
    for (const name of [`${dead}-a`, `${process.pid}-b`, 'rubbish'])
      writeFileSync(join(folder, 'incoming', name), 'half');
    await folderContentStore(folder, realFileSystem);
    expect(readdirSync(join(folder, 'incoming'))).toEqual([`${process.pid}-b`]);
  });

  test('mends a file that the drive has spoilt when it is sent again', async () => {
    const folder = folderOf();
    const store = await folderContentStore(folder, realFileSystem);
    await store.receive('recordings', pieces, any);
    writeFileSync(store.path('recordings', hash) as string, 'spoilt');
    await store.receive('recordings', pieces, any);
    expect(await store.size('recordings', hash)).toBe(300_000);
  });
});

// Content as files in a folder: RECORDINGS/ab/abcd….wav, written under another name first.
import { createHash, randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { failure, success } from '../base/result.ts';
import { contentDiffers, tooLarge } from './content-refusals.ts';
import { type ContentKind, type ContentStore, contentKinds } from './content-store.ts';
import { asStoreFailure } from './failure.ts';
import { fileSource } from './file-source.ts';
import type { Draft, FileSystem } from './file-system.ts';

const endings: Record<ContentKind, string> = { recordings: '.wav', tracks: '.json', photos: '.image' };

/** Where content is written before it has a name. */
export const incomingFolder = 'incoming';

/** A process that is no more cannot finish what it began. */
function isRunning(process_: number): boolean {
  try {
    process.kill(process_, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * The content store in `folder`. Drafts that a dead process left behind are taken away; those of a living one stay.
 */
export async function folderContentStore(folder: string, files: FileSystem): Promise<ContentStore> {
  const drafts = join(folder, incomingFolder);
  try {
    for (const name of [...contentKinds, incomingFolder]) await files.makeFolder(join(folder, name));
    for (const name of await files.list(drafts)) {
      const owner = /^(\d+)-/.exec(name)?.[1];
      if (owner === undefined || !isRunning(Number(owner))) await files.remove(join(drafts, name));
    }
  } catch (error) {
    throw asStoreFailure(error, folder);
  }

  const shard = (kind: ContentKind, sha256: string) => join(folder, kind, sha256.slice(0, 2));
  const pathOf = (kind: ContentKind, sha256: string) => join(shard(kind, sha256), `${sha256}${endings[kind]}`);

  /** Gives a complete draft its name; both the name and the folder it is in last. */
  async function name(kind: ContentKind, sha256: string, draft: string): Promise<boolean> {
    const path = pathOf(kind, sha256);
    const isNew = (await files.size(path)) === null;
    await files.makeFolder(shard(kind, sha256));
    await files.syncFolder(join(folder, kind));
    // Also over one that is there: if the drive has spoilt that one, this mends it.
    await files.rename(draft, path);
    await files.syncFolder(shard(kind, sha256));
    return isNew;
  }

  return {
    async receive(kind, pieces, { bytesMax, tooLargeMend, sha256: expected, check }) {
      const draftPath = join(drafts, `${process.pid}-${randomUUID()}`);
      const hash = createHash('sha256');
      let bytes = 0;
      let draft: Draft | undefined;
      let foreign: unknown;
      try {
        draft = await files.create(draftPath);
        const iterator = watched(pieces, (error) => {
          foreign = error;
        });
        for await (const piece of iterator) {
          bytes += piece.length;
          if (bytes > bytesMax) return failure(tooLarge(bytesMax, tooLargeMend));
          hash.update(piece);
          await draft.write(piece);
        }
        await draft.sync();
        await draft.close();
        draft = undefined;
        const sha256 = hash.digest('hex');
        if (expected !== undefined && expected !== sha256) return failure(contentDiffers(expected, sha256));
        const source = fileSource(draftPath);
        const checked = ((): ReturnType<typeof check> => {
          try {
            return check(source);
          } finally {
            source.close();
          }
        })();
        if (!checked.ok) return checked;
        const isNew = await name(kind, sha256, draftPath);
        return success({ sha256, bytes, isNew, checked: checked.value });
      } catch (error) {
        throw error === foreign ? error : asStoreFailure(error, folder);
      } finally {
        await draft?.close().catch(() => {});
        // The draft is gone if it has a name by now; if it cannot be removed, the next start does it.
        await files.remove(draftPath).catch(() => {});
      }
    },
    size: async (kind, sha256) => {
      try {
        return await files.size(pathOf(kind, sha256));
      } catch (error) {
        throw asStoreFailure(error, folder);
      }
    },
    async open(kind, sha256) {
      try {
        return fileSource(pathOf(kind, sha256));
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
        throw asStoreFailure(error, folder);
      }
    },
    path: pathOf,
    async list(kind) {
      const found: string[] = [];
      for (const part of (await files.list(join(folder, kind))).sort()) {
        for (const file of (await files.list(join(folder, kind, part))).sort()) {
          if (/^[0-9a-f]{64}\./.test(file)) found.push(file.slice(0, 64));
        }
      }
      return found;
    },
  };
}

/** The same pieces; an error of theirs is told apart from one of the disk. */
async function* watched(
  pieces: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  failed: (error: unknown) => void,
): AsyncIterable<Uint8Array> {
  try {
    yield* pieces;
  } catch (error) {
    failed(error);
    throw error;
  }
}

// The few things a store asks of a disk, as a seam: tests put a failing one in its place.
import { mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';

/** A file that is being written. */
export interface Draft {
  write(bytes: Uint8Array): Promise<void>;
  /** Returns when the bytes are on the disk itself. */
  sync(): Promise<void>;
  close(): Promise<void>;
}

export interface FileSystem {
  makeFolder(path: string): Promise<void>;
  /** A new file; it is a failure if there is one. */
  create(path: string): Promise<Draft>;
  rename(from: string, to: string): Promise<void>;
  /** Makes the names in a folder lasting: a rename is on the disk only after this. */
  syncFolder(path: string): Promise<void>;
  remove(path: string): Promise<void>;
  /** Size of a plain file in bytes, or null where there is none. */
  size(path: string): Promise<number | null>;
  /** Names in a folder; none where there is no folder. */
  list(path: string): Promise<string[]>;
}

function absent(error: unknown): boolean {
  const { code } = error as NodeJS.ErrnoException;
  return code === 'ENOENT' || code === 'ENOTDIR';
}

/** The disk of this computer. */
export const realFileSystem: FileSystem = {
  async makeFolder(path) {
    await mkdir(path, { recursive: true });
  },
  async create(path) {
    const file = await open(path, 'wx', 0o644);
    return {
      async write(bytes) {
        let rest = bytes;
        while (rest.length > 0) rest = rest.subarray((await file.write(rest)).bytesWritten);
      },
      sync: () => file.sync(),
      close: () => file.close(),
    };
  },
  rename: (from, to) => rename(from, to),
  async syncFolder(path) {
    // Windows has no such call on folders and keeps names by itself.
    if (process.platform === 'win32') return;
    const folder = await open(path, 'r');
    try {
      await folder.sync();
    } finally {
      await folder.close();
    }
  },
  remove: (path) => rm(path, { force: true }),
  async size(path) {
    try {
      const found = await stat(path);
      return found.isFile() ? found.size : null;
    } catch (error) {
      if (absent(error)) return null;
      throw error;
    }
  },
  async list(path) {
    try {
      return await readdir(path);
    } catch (error) {
      if (absent(error)) return [];
      throw error;
    }
  },
};

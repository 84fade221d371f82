// What can be computed again, kept so that it need not be: readings and the sound of tracks, by the reader's version.
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export interface CacheFolder {
  /** Where a file of this name stands or would stand. */
  path(name: string): string;
  read(name: string): Uint8Array | null;
  /** Keeps it if it can; a cache that cannot be written is no reason to fail. */
  keep(name: string, content: string | Uint8Array): void;
}

/** The cache of this version in `folder`; what other versions left there is taken away. */
export function cacheFolder(folder: string, version: string): CacheFolder {
  const own = join(folder, version);
  try {
    mkdirSync(own, { recursive: true });
    for (const other of readdirSync(folder)) {
      if (other !== version) rmSync(join(folder, other), { recursive: true, force: true });
    }
  } catch {
    // Without a cache everything is computed each time.
  }
  const path = (name: string) => join(own, name);
  return {
    path,
    read(name) {
      try {
        return readFileSync(path(name));
      } catch {
        return null;
      }
    },
    keep(name, content) {
      const draft = `${path(name)}.${process.pid}.tmp`;
      try {
        writeFileSync(draft, content);
        renameSync(draft, path(name));
      } catch {
        rmSync(draft, { force: true });
      }
    },
  };
}

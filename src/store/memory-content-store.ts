// Content in memory: for tests, and for whatever must leave no trace.
import { createHash } from 'node:crypto';
import { failure, success } from '../base/result.ts';
import { byteSourceFromArray } from '../signals/recording.ts';
import { contentDiffers, tooLarge } from './content-refusals.ts';
import type { ContentKind, ContentStore } from './content-store.ts';
import type { FileSource } from './file-source.ts';

function sourceOf(bytes: Uint8Array): FileSource {
  return { ...byteSourceFromArray(bytes), close: () => {} };
}

/** A store that forgets everything when it is let go. */
export function memoryContentStore(): ContentStore {
  const kept: Record<ContentKind, Map<string, Uint8Array>> = {
    recordings: new Map(),
    tracks: new Map(),
    photos: new Map(),
  };
  return {
    async receive(kind, pieces, { bytesMax, tooLargeMend, sha256: expected, check }) {
      const parts: Uint8Array[] = [];
      let bytes = 0;
      for await (const piece of pieces) {
        bytes += piece.length;
        if (bytes > bytesMax) return failure(tooLarge(bytesMax, tooLargeMend));
        parts.push(piece.slice());
      }
      const whole = new Uint8Array(bytes);
      let at = 0;
      for (const part of parts) {
        whole.set(part, at);
        at += part.length;
      }
      const sha256 = createHash('sha256').update(whole).digest('hex');
      if (expected !== undefined && expected !== sha256) return failure(contentDiffers(expected, sha256));
      const checked = check(sourceOf(whole));
      if (!checked.ok) return checked;
      const isNew = !kept[kind].has(sha256);
      if (isNew) kept[kind].set(sha256, whole);
      return success({ sha256, bytes, isNew, checked: checked.value });
    },
    size: async (kind, sha256) => kept[kind].get(sha256)?.length ?? null,
    async open(kind, sha256) {
      const bytes = kept[kind].get(sha256);
      return bytes === undefined ? null : sourceOf(bytes);
    },
    path: () => null,
    list: async (kind) => [...kept[kind].keys()].sort(),
  };
}

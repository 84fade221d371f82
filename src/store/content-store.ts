// What a store of files promises: each is named by the SHA-256 of its content, and is there whole or not at all.
import type { Result } from '../base/result.ts';
import type { FileSource } from './file-source.ts';

/** Recordings are WAV files as they came in; tracks are descriptions in canonical JSON; photos are JPEG or PNG files. */
export const contentKinds = ['recordings', 'tracks', 'photos'] as const;
export type ContentKind = (typeof contentKinds)[number];

export interface Kept {
  sha256: string;
  bytes: number;
  /** False when it was there before. */
  isNew: boolean;
}

export interface ContentLimits<Checked> {
  /** More than that is refused (`too-large`) as soon as it is seen. */
  bytesMax: number;
  /** What helps whoever sent too much. */
  tooLargeMend?: string;
  /** What the content is expected to hash to; another hash is refused (`content-differs`). */
  sha256?: string;
  /** Looks at the complete draft before it takes its name; what it refuses is not kept. */
  check: (source: FileSource) => Result<Checked>;
}

/**
 * Files by content. All promises may be rejected with a StoreFailure; then the content is not kept, and nothing half of it
 * can be seen.
 */
export interface ContentStore {
  /**
   * Takes content in, piece by piece. It is complete and synced, and so is its name, when this resolves.
   *
   * If `pieces` throws, the content is not kept and the error comes through.
   */
  receive<Checked>(
    kind: ContentKind,
    pieces: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
    limits: ContentLimits<Checked>,
  ): Promise<Result<Kept & { checked: Checked }>>;
  /** Bytes, or null where there is no such content. */
  size(kind: ContentKind, sha256: string): Promise<number | null>;
  /** The content for reading here and there; null where there is none. Whoever gets it closes it. */
  open(kind: ContentKind, sha256: string): Promise<FileSource | null>;
  /** Where the content stands as a file, for a worker to open; null where it is no file. */
  path(kind: ContentKind, sha256: string): string | null;
  /** Every hash kept. */
  list(kind: ContentKind): Promise<string[]>;
}

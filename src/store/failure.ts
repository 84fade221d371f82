// What the disk or the database would not do, in words for the person. Thrown by stores, told by the doors.
import type { Issue } from '../base/result.ts';

/** A store that could not do its work; nothing was half done. Recognised by its `issue`. */
export interface StoreFailure extends Error {
  issue: Issue;
}

export function isStoreFailure(error: unknown): error is StoreFailure {
  return error instanceof Error && typeof (error as Partial<StoreFailure>).issue?.code === 'string';
}

export function storeFailure(issue: Issue, cause: unknown): StoreFailure {
  return Object.assign(new Error(issue.message, { cause }), { issue });
}

const full: Issue = {
  code: 'disk-full',
  message: 'The disk is full: nothing of this was kept.',
  mend: 'Make room on the drive that holds the data, then do it again.',
};

const byCode: Record<string, Issue> = {
  ENOSPC: full,
  EDQUOT: full,
  SQLITE_FULL: full,
  EACCES: {
    code: 'data-not-allowed',
    message: 'The data folder may not be written: nothing of this was kept.',
    mend: 'Check who may write the data folder.',
  },
  EROFS: {
    code: 'data-not-allowed',
    message: 'The data folder is on a read-only drive: nothing of this was kept.',
    mend: 'Choose a data folder on another drive with KICKPANEL_DATA or --data.',
  },
  SQLITE_BUSY: {
    code: 'data-busy',
    message: 'Another program holds the journal: nothing of this was kept.',
    mend: 'Wait a moment and do it again; if it stays, close the other program.',
  },
  SQLITE_CORRUPT: {
    code: 'data-damaged',
    message: 'The journal file is damaged.',
    mend: 'Stop work in this data folder, copy it as it is, and go on from the last export or backup.',
  },
};
byCode.EPERM = byCode.EACCES;
byCode.SQLITE_READONLY = byCode.EACCES;
byCode.SQLITE_CANTOPEN = byCode.EACCES;
byCode.SQLITE_NOTADB = byCode.SQLITE_CORRUPT;

/** A failure of disk or database said for a person; what is no such failure comes back as it is. */
export function asStoreFailure(error: unknown, where?: string): unknown {
  const { code } = error as { code?: unknown };
  if (isStoreFailure(error) || typeof code !== 'string' || !/^(E[A-Z0-9]+|SQLITE_[A-Z_]+)$/.test(code)) return error;
  const primary = /^SQLITE_[A-Z]+/.exec(code)?.[0] ?? code;
  const known = byCode[code] ??
    byCode[primary] ?? {
      code: 'data-not-written',
      message: `The data folder could not be used (${code}): nothing of this was kept.`,
      mend: 'Check the drive that holds the data, then do it again.',
    };
  return storeFailure(where === undefined ? known : { ...known, where }, error);
}

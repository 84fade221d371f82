// What the outside gave us wrong, as data: reported whole, with where it is and how to mend it.

/** One thing wrong with what came from outside. `code` is stable for scripts; the rest is for a person. */
export interface Issue {
  code: string;
  message: string;
  where?: string;
  mend?: string;
}

/** A value, or every issue that stands in its way. */
export type Result<T> = { ok: true; value: T } | { ok: false; issues: Issue[] };

/** A result that holds its value. */
export function success<T>(value: T): Result<T> {
  return { ok: true, value };
}

/** A result that holds the issues instead. */
export function failure<T = never>(...issues: Issue[]): Result<T> {
  return { ok: false, issues };
}

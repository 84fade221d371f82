// Why content is not taken in.
import type { Issue } from '../base/result.ts';

export function tooLarge(bytesMax: number, mend = 'Record in shorter takes.'): Issue {
  return {
    code: 'too-large',
    message: `It is larger than ${bytesMax >= 2e6 ? `${Math.round(bytesMax / 1e6)} MB` : `${bytesMax} bytes`}, the most that is taken.`,
    mend,
  };
}

export function contentDiffers(expected: string, got: string): Issue {
  return {
    code: 'content-differs',
    message: `What arrived is not what was announced (expected ${expected.slice(0, 12)}…, got ${got.slice(0, 12)}…).`,
    mend: 'Send it again; if that does not help, the copy at the sender is damaged.',
  };
}

// How far long work has come, as one line that is written over itself. On a terminal only.
import { writeAll } from './output.ts';

export interface Progress {
  report: (share: number, doing: string) => void;
  /** Takes the line away again. */
  clear: () => void;
}

/** A line on stderr, renewed ten times a second at most; nothing at all where stderr is not a terminal. */
export function progressLine(terminal: boolean, clockMs: () => number): Progress {
  let lastMs = Number.NEGATIVE_INFINITY;
  let shown = false;
  return {
    report(share, doing) {
      const nowMs = clockMs();
      if (!terminal || nowMs - lastMs < 100) return;
      lastMs = nowMs;
      shown = true;
      const percent = Math.round(100 * Math.min(Math.max(share, 0), 1));
      writeAll(2, `\r\u001b[K${String(percent).padStart(3)} %  ${doing}`);
    },
    clear() {
      if (shown) writeAll(2, '\r\u001b[K');
      shown = false;
    },
  };
}

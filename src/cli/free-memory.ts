// Hands memory back between the steps of a long reading.
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** New arrays worth collecting for; small takes never make so many. */
const MUCH_BYTES = 96 * 2 ** 20;

let collect: (() => void) | null = null;
/** What was still in use after the last collection. */
let keptBytes = 0;

/**
 * Collects what is left over, where arrays hold much memory.
 *
 * The collector weighs the heap, and arrays of samples lie outside it: left alone, it lets several hundred megabytes of
 * finished transforms of half-minute sweeps stand before it looks at them.
 */
export function freeMemory(): void {
  if (process.memoryUsage().arrayBuffers < keptBytes + MUCH_BYTES) return;
  if (!collect) {
    setFlagsFromString('--expose-gc');
    collect = runInNewContext('gc') as () => void;
  }
  collect();
  keptBytes = process.memoryUsage().arrayBuffers;
}

// Which channel a walk plays next, and a sound for it that harms nothing while nobody knows where the lead ends.
import type { WalkedChannel } from './plan-of-job.ts';

export interface WalkSound {
  fromHz: number;
  toHz: number;
  /** Highest peak of the file, dBFS. */
  levelDbfs: number;
  /** Whether a tweeter bears it, should the lead end there. */
  safeForTweeter: boolean;
}

/** From here up nothing at this level harms a tweeter. */
const tweeterHz = 2000;
/** Where nobody knows better: loud enough to be placed by ear, low enough for anything. */
const quietDbfs = -30;
/** Low sound that may reach a tweeter by mistake: 10 dB less again. */
const lowDbfs = -40;
const ends = { lowHz: 30, highHz: 8000 };

interface Edges {
  highPassHz?: number | undefined;
  lowPassHz?: number | undefined;
}

/**
 * A band that the channel lets through and that a tweeter bears, where there is one; else the upper end of its band, quieter.
 *
 * @returns at least an octave; 30 Hz to 8 kHz
 * Source: own choice: energy in a voice coil falls with the square of level, displacement with the square of frequency.
 */
export function soundFor({ highPassHz = ends.lowHz, lowPassHz = ends.highHz }: Edges): WalkSound {
  const top = Math.min(Math.max(lowPassHz, 2 * ends.lowHz), ends.highHz);
  const low = Math.max(Math.min(highPassHz, top / 2), ends.lowHz);
  if (top >= 2 * tweeterHz) {
    return { fromHz: Math.max(low, tweeterHz), toHz: top, levelDbfs: quietDbfs, safeForTweeter: true };
  }
  return { fromHz: Math.max(low, top / 4), toHz: top, levelDbfs: lowDbfs, safeForTweeter: false };
}

/** Channels in the order in which they are played: those with high sound first, so that tweeters are known before low ones. */
export function playOrder(
  channels: readonly WalkedChannel[],
  edgesOf: (channel: WalkedChannel) => Edges,
): WalkedChannel[] {
  const lowest = (channel: WalkedChannel) => edgesOf(channel).highPassHz ?? 0;
  return [...channels].sort((a, b) => lowest(b) - lowest(a));
}

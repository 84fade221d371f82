// The sound of one test of the walk: quiet noise in a band that the driver bears, on the side that the channel plays.
import { useMemo } from 'react';
import type { soundOf } from '../../job/walk/job-walk.ts';
import type { TrackDescription } from '../../signals/track.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import type { WalkedChannel } from '../../wiring/plan-of-job.ts';

const playRateHz = 48_000;

export interface TestSound {
  /** Two channels may be tested by the same track, and are two sounds all the same. */
  channel: string;
  track: TrackDescription;
}

/** Stays the same sound while the job changes around it; null where none is asked for or none can be made. */
export function useTestSound(
  channel: WalkedChannel | null,
  sound: ReturnType<typeof soundOf> | null,
): TestSound | null {
  const { id, side } = channel ?? { id: null, side: null };
  const { fromHz, toHz, levelDbfs } = sound ?? { fromHz: 0, toHz: 0, levelDbfs: 0 };
  return useMemo(() => {
    if (id === null) return null;
    const made = designTrack({ kind: 'noise', rateHz: playRateHz, fromHz, toHz, levelDbfs, side });
    return made.ok ? { channel: id, track: made.value } : null;
  }, [id, side, fromHz, toHz, levelDbfs]);
}

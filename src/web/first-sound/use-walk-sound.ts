// The sound of one test of the walk: made when it is first asked for, played on a press, stopped on a press.
import { useEffect, useRef, useState } from 'react';
import type { TrackDescription } from '../../signals/track.ts';
import { makeTrack } from '../audio/made-track.ts';
import { type Playing, playTrack } from '../audio/player.ts';

export type SoundState = 'quiet' | 'making' | 'playing';

export interface WalkSoundPlayer {
  state: SoundState;
  fault: string | null;
  play: () => Promise<void>;
  stop: () => void;
}

export function useWalkSound(track: TrackDescription | null): WalkSoundPlayer {
  const [state, setState] = useState<SoundState>('quiet');
  const [fault, setFault] = useState<string | null>(null);
  const playing = useRef<Playing | null>(null);
  const stop = () => playing.current?.stop();
  // Another channel is another sound; whoever leaves the screen wants silence.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the sound belongs to its track
  useEffect(() => stop, [track]);
  const play = async () => {
    if (track === null || state !== 'quiet') return;
    setFault(null);
    setState('making');
    try {
      const made = await makeTrack(track);
      const now = await playTrack(made, null);
      playing.current = now;
      setState('playing');
      await now.ended;
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    } finally {
      playing.current = null;
      setState('quiet');
    }
  };
  return { state, fault, play, stop };
}

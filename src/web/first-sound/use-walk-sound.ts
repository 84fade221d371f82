// Plays the sound of a test: made when it is first asked for, played on a press, stopped on a press.
import { useEffect, useState } from 'react';
import { makeTrack } from '../audio/made-track.ts';
import { type Playing, playTrack } from '../audio/player.ts';
import type { TestSound } from './use-test-sound.ts';

export interface WalkSoundPlayer {
  state: 'quiet' | 'making' | 'playing';
  fault: string | null;
  play: () => void;
  stop: () => void;
}

/** One press of play. */
interface Press {
  of: TestSound;
}

export function useWalkSound(test: TestSound | null): WalkSoundPlayer {
  const [press, setPress] = useState<Press | null>(null);
  const [playing, setPlaying] = useState<Press | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  // Another channel is another sound: what was pressed before counts no longer.
  const asked = press !== null && press.of === test ? press : null;
  useEffect(() => {
    if (asked === null) return;
    let left = false;
    let sounds: Playing | null = null;
    const run = async () => {
      const made = await makeTrack(asked.of.track);
      if (left) return;
      sounds = await playTrack(made, null);
      // Whoever has left meanwhile wants silence.
      if (left) return sounds.stop();
      setPlaying(asked);
      await sounds.ended;
    };
    void run()
      .catch((error: unknown) => {
        if (!left) setFault(error instanceof Error ? error.message : String(error));
      })
      .finally(() => {
        if (!left) setPress(null);
      });
    return () => {
      left = true;
      sounds?.stop();
    };
  }, [asked]);
  return {
    state: asked === null ? 'quiet' : playing === asked ? 'playing' : 'making',
    fault,
    play() {
      if (test === null || asked !== null) return;
      setFault(null);
      setPress({ of: test });
    },
    stop: () => setPress(null),
  };
}

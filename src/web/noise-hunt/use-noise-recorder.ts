// One take at a time from the microphone, for the slot that asked.
import { useEffect, useRef, useState } from 'react';
import type { TakeRole } from '../../measurement/noise-hunt/hunt-step.ts';
import { microphoneRefusal } from '../audio/devices.ts';
import { type NoiseRecorder, recordNoise } from './record-noise.ts';
import type { HuntTake } from './use-hunt.ts';

export interface NoiseRecording {
  /** The take that is being recorded; null for none. */
  role: TakeRole | null;
  seconds: number;
  fault: { message: string; mend: string } | null;
  start: (role: TakeRole) => void;
  stop: () => void;
}

export function useNoiseRecorder(onTake: (role: TakeRole, take: HuntTake) => void): NoiseRecording {
  const [state, setState] = useState<Pick<NoiseRecording, 'role' | 'seconds' | 'fault'>>({
    role: null,
    seconds: 0,
    fault: null,
  });
  const running = useRef<{ role: TakeRole; recorder: NoiseRecorder } | null>(null);
  const gone = useRef(false);
  useEffect(() => {
    gone.current = false;
    return () => {
      gone.current = true;
      void running.current?.recorder.stop().catch(() => undefined);
    };
  }, []);
  const failed = (error: unknown) => setState({ role: null, seconds: 0, fault: microphoneRefusal(error) });
  return {
    ...state,
    start(role) {
      if (state.role !== null) return;
      setState({ role, seconds: 0, fault: null });
      recordNoise((seconds) => setState((now) => ({ ...now, seconds: Math.floor(seconds) }))).then((recorder) => {
        if (gone.current) void recorder.stop().catch(() => undefined);
        else running.current = { role, recorder };
      }, failed);
    },
    stop() {
      const now = running.current;
      if (now === null) return;
      running.current = null;
      now.recorder.stop().then((wav) => {
        onTake(now.role, { name: 'Recorded here', wav });
        setState({ role: null, seconds: 0, fault: null });
      }, failed);
    },
  };
}

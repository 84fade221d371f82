// A microphone listened to before a take: its level, and what the browser applied.
import { useCallback, useEffect, useRef, useState } from 'react';
import { type Capture, openCapture } from '../audio/capture.ts';
import { microphoneRefusal } from '../audio/devices.ts';
import type { LevelNow } from '../audio/level-meter.ts';
import type { ListeningState } from './RecorderPanel.tsx';

const silent: ListeningState = { applied: null, level: null, refusal: null };
/** The bar moves no more often than an eye follows, s. */
const showEveryS = 0.06;

export interface Listening {
  state: ListeningState;
  listen: (inputId: string | null) => Promise<void>;
  stop: () => void;
  /** Hands the open microphone over to a take. */
  handOver: () => Capture | null;
  refuse: (error: unknown) => void;
}

export function useListening(): Listening {
  const [state, setState] = useState<ListeningState>(silent);
  const capture = useRef<Capture | null>(null);
  const shownAt = useRef(0);
  const stop = useCallback(() => {
    void capture.current?.end();
    capture.current = null;
    setState(silent);
  }, []);
  useEffect(() => stop, [stop]);
  const refuse = useCallback((error: unknown) => setState({ ...silent, refusal: microphoneRefusal(error) }), []);
  const listen = useCallback(
    async (inputId: string | null) => {
      stop();
      try {
        const opened = await openCapture({
          deviceId: inputId,
          spectrum: { fraction: 3, fromHz: 20, toHz: 20_000 },
          events: {
            onApplied: (applied) => setState((before) => ({ ...before, applied, refusal: null })),
            onLevel: (level: LevelNow, seconds) => {
              if (seconds - shownAt.current < showEveryS && seconds > shownAt.current) return;
              shownAt.current = seconds;
              setState((before) => ({ ...before, level }));
            },
            onGone: () => {
              capture.current = null;
              setState({
                ...silent,
                refusal: { message: 'The microphone went away.', mend: 'Plug it in and press Listen.' },
              });
            },
          },
        });
        capture.current = opened;
        setState((before) => ({ ...before, applied: opened.applied, refusal: null }));
      } catch (error) {
        refuse(error);
      }
    },
    [stop, refuse],
  );
  const handOver = useCallback(() => {
    const open = capture.current;
    capture.current = null;
    return open;
  }, []);
  return { state, listen, stop, handOver, refuse };
}

// A microphone listened to in bands: alone, or while a take of noise is kept.
import { useCallback, useEffect, useRef, useState } from 'react';
import type { AppliedInput } from '../audio/applied.ts';
import { type Capture, openCapture } from '../audio/capture.ts';
import { microphoneRefusal } from '../audio/devices.ts';
import type { LevelNow } from '../audio/level-meter.ts';
import type { BandsNow } from '../audio/listener-messages.ts';
import { lookAtKept, sendKept } from '../keep/outbox.ts';
import { goTo } from '../router.ts';
import { useShop } from '../shop/shop-context.ts';
import { type Recording, type RecordingWish, startRecording } from '../take/recording.ts';

export const liveSpectrum = { fraction: 3, fromHz: 24, toHz: 16_500 };

export type LivePhase = 'idle' | 'listening' | 'keeping';

export interface LiveState {
  phase: LivePhase;
  applied: AppliedInput | null;
  level: LevelNow | null;
  bands: BandsNow | null;
  refusal: { message: string; mend: string } | null;
  /** Of the take being kept, s. */
  positionS: number | null;
  broken: string | null;
}

const idle: LiveState = {
  phase: 'idle',
  applied: null,
  level: null,
  bands: null,
  refusal: null,
  positionS: null,
  broken: null,
};
/** Words and numbers change no faster than they are read; the picture does not wait for them. */
const tellEveryMs = 400;

export interface Live {
  state: LiveState;
  listen: (inputId: string | null) => Promise<void>;
  stop: () => void;
  startAverage: () => void;
  keep: (wish: Omit<RecordingWish, 'capture'>) => void;
}

export function useLive(job: string | null, onBands: (bands: BandsNow) => void): Live {
  const { api } = useShop();
  const [state, setState] = useState<LiveState>(idle);
  const now = useRef<LiveState>(idle);
  const capture = useRef<Capture | null>(null);
  const recording = useRef<Recording | null>(null);
  const paint = useRef(onBands);
  paint.current = onBands;
  const tell = useCallback((change: Partial<LiveState>) => {
    now.current = { ...now.current, ...change };
    setState(now.current);
  }, []);
  useEffect(() => {
    const show = setInterval(() => {
      if (now.current.phase === 'idle') return;
      setState({ ...now.current, positionS: recording.current?.positionS() ?? null });
    }, tellEveryMs);
    return () => {
      clearInterval(show);
      recording.current?.stop();
      void capture.current?.end();
    };
  }, []);
  const heard = {
    onApplied: (applied: AppliedInput) => tell({ applied }),
    onLevel: (level: LevelNow) => {
      now.current.level = level;
    },
    onBands: (bands: BandsNow) => {
      now.current.bands = bands;
      paint.current(bands);
    },
  };
  const listen = async (inputId: string | null) => {
    void capture.current?.end();
    capture.current = null;
    now.current = { ...idle };
    try {
      capture.current = await openCapture({
        deviceId: inputId,
        spectrum: liveSpectrum,
        events: {
          ...heard,
          onGone: () => {
            capture.current = null;
            tell({ ...idle, refusal: { message: 'The microphone went away.', mend: 'Plug it in and press Listen.' } });
          },
        },
      });
      tell({ phase: 'listening', applied: capture.current.applied, refusal: null });
    } catch (error) {
      tell({ ...idle, refusal: microphoneRefusal(error) });
    }
  };
  const stop = () => {
    if (recording.current) {
      recording.current.stop();
      return;
    }
    void capture.current?.end();
    capture.current = null;
    tell({ phase: 'idle' });
  };
  const keep = (wish: Omit<RecordingWish, 'capture'>) => {
    if (recording.current || job === null) return;
    const open = capture.current;
    capture.current = null;
    open?.average();
    const started = startRecording({ ...wish, capture: open }, { ...heard, onStep: () => {} });
    recording.current = started;
    tell({ phase: 'keeping', broken: null, refusal: null });
    started.ended.then(
      ({ take, broken }) => {
        recording.current = null;
        void lookAtKept().then(() => sendKept(api));
        if (take !== null && broken === null) goTo({ page: 'reading', job, take: take.id });
        else tell({ ...idle, broken: broken ?? 'The recording ended before the track did.' });
      },
      (error: unknown) => {
        recording.current = null;
        void lookAtKept();
        tell({ ...idle, refusal: microphoneRefusal(error) });
      },
    );
  };
  return { state, listen, stop, startAverage: () => capture.current?.average(), keep };
}

// The course of a take on the screen: chosen, recorded, kept, or broken off.
import { useCallback, useEffect, useRef, useState } from 'react';
import type { TrackDescription } from '../../signals/track.ts';
import type { LevelNow } from '../audio/level-meter.ts';
import { lookAtKept, sendKept } from '../keep/outbox.ts';
import type { Route } from '../route.ts';
import { goTo } from '../router.ts';
import { useShop } from '../shop/shop-context.ts';
import { heardSweep } from './heard-sweep.ts';
import { type Recording, type RecordingEnd, type RecordingWish, startRecording } from './recording.ts';
import { envelopeBins } from './SweepTrack.tsx';
import { progressAxis, progressShare, type TrackPlace, trackPlace } from './track-place.ts';

export interface LiveTake {
  track: TrackDescription;
  plays: 'here' | 'elsewhere';
  step: 'making' | 'opening' | 'recording' | 'keeping';
  level: LevelNow | null;
  /** Seconds of sound so far. */
  seconds: number;
  /** While it plays here. */
  place: TrackPlace | null;
  /** 0 .. 1 of the axis. */
  share: number | null;
  /** While it plays elsewhere: the frequency that is heard. */
  heardHz: number | null;
  remainingS: number | null;
  envelopeDb: Float32Array;
}

export interface BrokenTake {
  end: RecordingEnd;
  track: TrackDescription;
  when: Date;
  /** How far the axis was, 0 .. 1. */
  share: number;
  envelopeDb: Float32Array;
}

export type TakePhase =
  | { phase: 'setup' }
  | { phase: 'live'; live: LiveTake }
  | { phase: 'broken'; broken: BrokenTake };

const showEveryMs = 66;

/** @param then  where to go after a take; to its reading if absent */
export function useTake(
  job: string,
  then: Route | null,
): {
  state: TakePhase;
  start: (wish: RecordingWish, onRefused: (error: unknown) => void) => void;
  stop: () => void;
  again: () => void;
} {
  const { api } = useShop();
  const [state, setState] = useState<TakePhase>({ phase: 'setup' });
  const running = useRef<Recording | null>(null);
  const after = useRef(then);
  useEffect(() => () => running.current?.stop(), []);
  const start = useCallback(
    (wish: RecordingWish, onRefused: (error: unknown) => void) => {
      if (running.current) return;
      const axis = progressAxis(wish.track);
      const heard = heardSweep();
      let live: LiveTake = {
        track: wish.track,
        plays: wish.plays,
        step: 'making',
        level: null,
        seconds: 0,
        place: null,
        share: null,
        heardHz: null,
        remainingS: null,
        envelopeDb: new Float32Array(envelopeBins),
      };
      let firstS: number | null = null;
      const draw = (level: LevelNow) => {
        if (live.share === null) return;
        const bin = Math.min(envelopeBins - 1, Math.floor(live.share * envelopeBins));
        const before = live.envelopeDb[bin];
        live.envelopeDb[bin] = before === 0 ? level.peakDbfs : Math.max(before, level.peakDbfs);
      };
      const recording = startRecording(wish, {
        onStep: (step) => {
          live = { ...live, step };
        },
        onApplied: () => {},
        onLevel: (level, seconds) => {
          firstS ??= seconds;
          const atS = recording.positionS();
          if (atS !== null) {
            const place = trackPlace(wish.track, atS);
            live = {
              ...live,
              place,
              share: progressShare(axis, place, atS) ?? live.share,
              remainingS: Math.max(0, wish.track.durationS - atS),
            };
          }
          live = { ...live, level, seconds: seconds - firstS };
          draw(level);
        },
        onBands: ({ momentDb, fHz }) => {
          if (wish.plays === 'here' || axis.kind === 'time') return;
          const fNow = heard.feed(momentDb, fHz);
          if (fNow === null || fNow < axis.from * 0.9 || fNow > axis.to * 1.1) return;
          const share = Math.log(fNow / axis.from) / Math.log(axis.to / axis.from);
          live = { ...live, heardHz: fNow, share: Math.min(1, Math.max(0, share)) };
        },
      });
      running.current = recording;
      const show = setInterval(() => setState({ phase: 'live', live: { ...live } }), showEveryMs);
      setState({ phase: 'live', live });
      const over = () => {
        clearInterval(show);
        running.current = null;
        void lookAtKept().then(() => sendKept(api));
      };
      recording.ended.then(
        (end) => {
          over();
          if (end.broken === null && end.take !== null) {
            goTo(after.current ?? { page: 'reading', job, take: end.take.id }, { replace: true });
            return;
          }
          const broken = {
            end,
            track: wish.track,
            when: new Date(),
            share: live.share ?? 0,
            envelopeDb: live.envelopeDb,
          };
          setState({ phase: 'broken', broken });
        },
        (error: unknown) => {
          over();
          setState({ phase: 'setup' });
          onRefused(error);
        },
      );
    },
    [api, job],
  );
  const stop = useCallback(() => running.current?.stop(), []);
  const again = useCallback(() => setState({ phase: 'setup' }), []);
  return { state, start, stop, again };
}

// One recording from its first sample to the kept take: microphone, keeper and player in the order they need each other.
import type { TrackDescription } from '../../signals/track.ts';
import type { AppliedInput } from '../audio/applied.ts';
import { type Capture, openCapture } from '../audio/capture.ts';
import type { LevelNow } from '../audio/level-meter.ts';
import type { BandsNow } from '../audio/listener-messages.ts';
import { makeTrack } from '../audio/made-track.ts';
import { type Playing, playTrack } from '../audio/player.ts';
import { changeKeptTake, type KeptTake, keepTake } from '../keep/kept-take.ts';
import { holdTake } from '../keep/orphans.ts';
import { noteSaved } from '../shop/saved-status.ts';

/** Quiet before the track and after it, s: the noise is measured there, and a room rings. */
const leadS = 0.6;
const tailS = 1.2;
/** How long a microphone may take to give its first sound, s. */
const patienceS = 6;

export interface RecordingWish {
  take: Omit<KeptTake, 'sound' | 'frames' | 'pieces' | 'bytes' | 'state' | 'startedMs'>;
  track: TrackDescription;
  plays: 'here' | 'elsewhere';
  outputId: string | null;
  inputId: string | null;
  /** An open microphone, if there is one. */
  capture: Capture | null;
}

export interface RecordingEvents {
  onStep: (step: 'making' | 'opening' | 'recording' | 'keeping') => void;
  onApplied: (input: AppliedInput) => void;
  onLevel: (level: LevelNow, seconds: number) => void;
  onBands: (bands: BandsNow) => void;
}

export interface RecordingEnd {
  take: KeptTake | null;
  /** Why it ended before its time, in a sentence; null when it is whole. */
  broken: string | null;
  /** Where the track was then, s; null when that is not known. */
  atS: number | null;
}

export interface Recording {
  /** Seconds into the track while it plays here; null when it plays elsewhere or has not begun. */
  positionS: () => number | null;
  /** Ends it: what plays elsewhere is then whole, what plays here was cut short. */
  stop: () => void;
  ended: Promise<RecordingEnd>;
}

const wait = (seconds: number) => new Promise<void>((resolve) => setTimeout(resolve, seconds * 1000));

/** Channels of the first sound; a microphone that gives none for a while is said to be silent. */
function firstSound(capture: Capture): Promise<number> {
  const silent = wait(patienceS).then(() => {
    throw new Error('it is open, but no sound comes from it');
  });
  return Promise.race([capture.started, silent]);
}

/** Keeps the screen on while it lasts, where the browser can. */
async function stayAwake(): Promise<() => void> {
  const lock = await navigator.wakeLock?.request('screen').catch(() => undefined);
  return () => void lock?.release();
}

export function startRecording(wish: RecordingWish, events: RecordingEvents): Recording {
  let playing: Playing | null = null;
  let stopped = false;
  let cut: (why: string | null) => void = () => {};
  /** Resolved when the sound ends: with null when it is whole, else with the reason. */
  const over = new Promise<string | null>((resolve) => {
    cut = resolve;
  });

  async function run(): Promise<RecordingEnd> {
    const release = await stayAwake();
    let capture: Capture | null = wish.capture;
    try {
      events.onStep('making');
      const made = wish.plays === 'here' ? await makeTrack(wish.track) : null;
      events.onStep('opening');
      const listeners = {
        onApplied: events.onApplied,
        onLevel: events.onLevel,
        onBands: events.onBands,
        onKept: () => noteSaved({ hereWhen: Date.now() }),
        onTrouble: (_: unknown, message: string) => cut(message),
        onGone: () => cut('The microphone went away.'),
      };
      capture ??= await openCapture({
        deviceId: wish.inputId,
        spectrum: { fraction: 3, fromHz: 20, toHz: 20_000 },
        events: listeners,
      });
      capture.listen(listeners);
      const channels = await firstSound(capture);
      const kept: KeptTake = {
        ...wish.take,
        startedMs: Date.now(),
        state: 'recording',
        sound: { kind: 'captured', rateHz: capture.rateHz, channels },
        frames: 0,
        pieces: 0,
        bytes: 0,
        take: { ...wish.take.take, input: inputOf(capture.applied, channels) },
      };
      await keepTake(kept);
      const done = finish(capture, kept);
      holdTake(kept.id, done);
      capture.keep(kept);
      events.onStep('recording');
      if (made) {
        await wait(leadS);
        if (!stopped) {
          playing = await playTrack(made, wish.outputId);
          void playing.ended.then(async (byItself) => {
            if (byItself) await wait(tailS);
            cut(byItself ? null : 'It was stopped by hand.');
          });
        }
      }
      return await done;
    } catch (error) {
      playing?.stop();
      await capture?.end();
      throw error;
    } finally {
      release();
    }
  }

  async function finish(capture: Capture, kept: KeptTake): Promise<RecordingEnd> {
    const broken = await over;
    const atS = playing ? playing.positionS() : null;
    playing?.stop();
    events.onStep('keeping');
    const whole = await capture.end();
    const take = broken === null || whole === null ? whole : ((await changeKeptTake(kept.id, { broken })) ?? whole);
    noteSaved({ hereWhen: Date.now() });
    return { take, broken: broken ?? whole?.broken ?? null, atS };
  }

  return {
    positionS: () => playing?.positionS() ?? null,
    stop() {
      stopped = true;
      if (wish.plays === 'here') {
        if (playing) playing.stop();
        else cut('It was stopped by hand.');
      } else cut(null);
    },
    ended: run(),
  };
}

/** The input as the journal keeps it: what the browser really applied. */
function inputOf(applied: AppliedInput, channels: number): NonNullable<KeptTake['take']['input']> {
  const { label, rateHz, deviceRateHz, bits, echoCancellation, noiseSuppression, autoGainControl } = applied;
  const known = { deviceRateHz, bits, echoCancellation, noiseSuppression, autoGainControl };
  return {
    label: label.slice(0, 200),
    rateHz,
    channels,
    ...Object.fromEntries(Object.entries(known).filter(([, value]) => value !== undefined)),
  };
}

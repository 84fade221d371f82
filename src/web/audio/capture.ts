// A microphone that is being listened to: opened without processing, handed sample by sample to the listening worker.
import type { KeptTake } from '../keep/kept-take.ts';
import { type AppliedInput, appliedInput } from './applied.ts';
import captureWorkletUrl from './capture-worklet.ts?worker&url';
import type { LevelNow } from './level-meter.ts';
import ListenerWorker from './listener.worker.ts?worker';
import type { BandsNow, ListenerReport, ListenerRequest, SpectrumWish, Trouble } from './listener-messages.ts';

export interface CaptureEvents {
  onLevel?: (level: LevelNow, seconds: number) => void;
  onBands?: (bands: BandsNow) => void;
  onKept?: (take: KeptTake) => void;
  onTrouble?: (trouble: Trouble, message: string, atS: number) => void;
  /** The device went away by itself. */
  onGone?: () => void;
  onApplied?: (input: AppliedInput) => void;
}

export interface Capture {
  readonly applied: AppliedInput;
  readonly rateHz: number;
  /** Channels of the sound, known once the first of it has come. */
  readonly started: Promise<number>;
  keep(take: KeptTake): void;
  /** Starts average and spread anew. */
  average(): void;
  /** Lets the microphone go; resolved with the take once all of it is kept. */
  end(): Promise<KeptTake | null>;
  /** From now on others are told. */
  listen(events: CaptureEvents): void;
}

export interface CaptureWish {
  deviceId: string | null;
  spectrum: SpectrumWish | null;
  events: CaptureEvents;
}

/** Everything off that a telephone call would want on. */
function constraintsFor(deviceId: string | null): MediaStreamConstraints {
  return {
    audio: {
      ...(deviceId === null ? {} : { deviceId: { exact: deviceId } }),
      echoCancellation: false,
      noiseSuppression: false,
      autoGainControl: false,
      channelCount: { ideal: 2 },
      sampleRate: { ideal: 48_000 },
    },
    video: false,
  };
}

/** How late sound may come, s. Nobody hears it, so it need not hurry: a machine that is busy for a moment loses none of it. */
const latencyHint = 0.1;

/** A context that runs as the device does, so that the browser converts nothing; its own rate where it refuses that. */
function contextFor(track: MediaStreamTrack): AudioContext {
  const { sampleRate } = track.getSettings();
  try {
    return new AudioContext(sampleRate === undefined ? { latencyHint } : { latencyHint, sampleRate });
  } catch {
    return new AudioContext({ latencyHint });
  }
}

/**
 * Opens a microphone.
 *
 * @throws DOMException as the browser words it: no permission, no device, in use by another program
 */
export async function openCapture({ deviceId, spectrum, events: first }: CaptureWish): Promise<Capture> {
  const stream = await navigator.mediaDevices.getUserMedia(constraintsFor(deviceId));
  const [track] = stream.getAudioTracks();
  const context = contextFor(track);
  let events = first;
  let applied = appliedInput(track, context.sampleRate);
  const worker = new ListenerWorker();
  const release = () => {
    track.onended = null;
    track.stop();
    void context.close();
  };
  try {
    await context.audioWorklet.addModule(captureWorkletUrl);
    await context.resume();
  } catch (error) {
    release();
    worker.terminate();
    throw error;
  }
  const source = context.createMediaStreamSource(stream);
  const node = new AudioWorkletNode(context, 'kickpanel-capture', { numberOfInputs: 1, numberOfOutputs: 0 });
  const wire = new MessageChannel();
  let channelsKnown: (channels: number) => void = () => {};
  const started = new Promise<number>((resolve) => {
    channelsKnown = resolve;
  });
  let ended: ((take: KeptTake | null) => void) | null = null;
  const heard = (report: ListenerReport): void => {
    switch (report.say) {
      case 'level':
        if (applied.channels !== report.channels) {
          applied = { ...applied, channels: report.channels };
          channelsKnown(report.channels);
          events.onApplied?.(applied);
        }
        events.onLevel?.(report.level, report.seconds);
        break;
      case 'bands':
        events.onBands?.(report.bands);
        break;
      case 'kept':
        events.onKept?.(report.take);
        break;
      case 'trouble':
        events.onTrouble?.(report.trouble, report.message, report.atS);
        break;
      case 'ended':
        ended?.(report.take);
        break;
    }
  };
  worker.onmessage = ({ data }: MessageEvent<ListenerReport>) => heard(data);
  const ask = (request: ListenerRequest, transfer: Transferable[] = []) => worker.postMessage(request, transfer);
  ask({ ask: 'listen', port: wire.port1, rateHz: context.sampleRate, spectrum }, [wire.port1]);
  node.port.postMessage({ out: wire.port2 }, [wire.port2]);
  source.connect(node);
  track.onended = () => events.onGone?.();
  let ending: Promise<KeptTake | null> | null = null;
  return {
    get applied() {
      return applied;
    },
    rateHz: context.sampleRate,
    started,
    keep: (take) => ask({ ask: 'keep', take }),
    average: () => ask({ ask: 'average' }),
    listen(next) {
      events = next;
      events.onApplied?.(applied);
    },
    end() {
      ending ??= new Promise<KeptTake | null>((resolve) => {
        ended = resolve;
        node.port.postMessage({ end: true });
        // A context that no longer runs sends nothing more; what is kept is kept.
        setTimeout(() => resolve(null), 4000);
      }).then((take) => {
        source.disconnect();
        release();
        worker.terminate();
        return take;
      });
      return ending;
    },
  };
}

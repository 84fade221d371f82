// A short take of noise from the microphone, kept in the page: nothing plays, so no track goes with it.
import { writeWav } from '../../signals/wav/write-wav.ts';
import { appliedChecks, appliedInput } from '../audio/applied.ts';
import type { CapturedBlock } from '../audio/capture-worklet.ts';
import captureWorkletUrl from '../audio/capture-worklet.ts?worker&url';

export interface NoiseRecorder {
  /** Ends it; the take as a WAV file. */
  stop: () => Promise<Blob>;
}

/** A minute is more than any take needs, and bounds what the page holds. */
const MOST_S = 60;

/**
 * Opens the microphone without processing and records until it is stopped.
 *
 * @param onSeconds how much has been recorded so far
 * @throws DOMException as the browser words it; Error where the browser changes the sound
 */
export async function recordNoise(onSeconds: (seconds: number) => void): Promise<NoiseRecorder> {
  const processing = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: { ...processing, channelCount: { ideal: 1 }, sampleRate: { ideal: 48_000 } },
    video: false,
  });
  const [track] = stream.getAudioTracks();
  const context = new AudioContext();
  const release = () => {
    track.stop();
    void context.close();
  };
  try {
    const stops = appliedChecks(appliedInput(track, context.sampleRate)).find(({ severity }) => severity === 'stop');
    if (stops) throw new Error(`the browser changes the sound: ${stops.small}`);
    await context.audioWorklet.addModule(captureWorkletUrl);
    await context.resume();
  } catch (error) {
    release();
    throw error;
  }
  const node = new AudioWorkletNode(context, 'kickpanel-capture', { numberOfInputs: 1, numberOfOutputs: 0 });
  const wire = new MessageChannel();
  const pieces: Float32Array[] = [];
  let frames = 0;
  let missing = 0;
  let ended: () => void = () => {};
  const end = new Promise<void>((resolve) => {
    ended = resolve;
  });
  wire.port1.onmessage = ({ data }: MessageEvent<CapturedBlock | 'end'>) => {
    if (data === 'end') return ended();
    if (frames > MOST_S * context.sampleRate) return;
    missing += data.missingFrames;
    pieces.push(data.channels[0]);
    frames += data.channels[0].length;
    onSeconds(frames / context.sampleRate);
  };
  node.port.postMessage({ out: wire.port2 }, [wire.port2]);
  const source = context.createMediaStreamSource(stream);
  source.connect(node);
  return {
    async stop() {
      node.port.postMessage({ end: true });
      await Promise.race([end, new Promise<void>((resolve) => setTimeout(resolve, 2000))]);
      source.disconnect();
      const rateHz = context.sampleRate;
      release();
      wire.port1.close();
      if (missing > 0) throw new Error('sound was lost on the way: close other programs and record again');
      const samples = new Float64Array(frames);
      let at = 0;
      for (const piece of pieces) {
        samples.set(piece, at);
        at += piece.length;
      }
      const bytes = writeWav({ channels: [samples], rateHz, format: '24' }) as Uint8Array<ArrayBuffer>;
      return new Blob([bytes], { type: 'audio/wav' });
    },
  };
}

// A test track made here: its description, its sound to play, its file to carry away.
import type { TrackDescription } from '../../signals/track.ts';
import TrackMakerWorker from './track-maker.worker.ts?worker';
import type { MakerReport } from './track-maker-messages.ts';

export interface MadeTrack {
  track: TrackDescription;
  /** One array a channel, full scale = 1. */
  channels: Float32Array<ArrayBuffer>[];
  /** 24 bits: the same bytes as the command line writes. */
  wav: Blob;
}

/** Makes the sound beside the page; `onProgress` gets the share that is done. */
export function makeTrack(track: TrackDescription, onProgress?: (share: number) => void): Promise<MadeTrack> {
  const worker = new TrackMakerWorker();
  return new Promise<MadeTrack>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<MakerReport>) => {
      if (data.say === 'progress') onProgress?.(data.share);
      else if (data.say === 'failed') reject(new Error(data.message));
      else resolve({ track, channels: data.channels, wav: new Blob([data.wav], { type: 'audio/wav' }) });
    };
    worker.onerror = ({ message }) => reject(new Error(message || 'the track could not be made'));
    worker.postMessage(track);
  }).finally(() => worker.terminate());
}

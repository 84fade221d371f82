// The sound of a track as the bytes of a WAV file, made piece by piece from its description.
import type { TrackDescription } from '../signals/track.ts';
import { trackAudio } from '../signals/track-audio.ts';
import { encodeSamples } from '../signals/wav/encode-samples.ts';
import { type WavLayout, wavByteLength, wavHeader, wavTail } from '../signals/wav/wav-header.ts';

/** 24 bits, without dither: the same description gives the same bytes. */
const format = '24';
const blockFrames = 16_384;

export interface TrackSound {
  byteLength: number;
  /** From the first byte to the last. */
  pieces: () => Generator<Uint8Array>;
}

/** The sound of a track; null where the description does not say all that plays, as of tracks made elsewhere. */
export function trackSound(track: TrackDescription): TrackSound | null {
  const audio = trackAudio(track);
  if (audio.silentSegments.length > 0) return null;
  const layout: WavLayout = { channels: audio.channels, rateHz: audio.rateHz, format, frames: audio.frames };
  return {
    byteLength: wavByteLength(layout),
    *pieces() {
      yield wavHeader(layout);
      for (let start = 0; start < audio.frames; start += blockFrames) {
        const block = audio.renderBlock(start, Math.min(blockFrames, audio.frames - start));
        yield encodeSamples(block, start, { format });
      }
      yield wavTail(layout);
    },
  };
}

/** Whether the description says all that plays. */
export function isPlayable(track: TrackDescription): boolean {
  return trackAudio(track).silentSegments.length === 0;
}

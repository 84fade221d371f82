// Recordings and track descriptions on their way in: what is looked at before they are kept.
import { type Result, success } from '../base/result.ts';
import { canonicalJson } from '../job/canonical-json.ts';
import type { TrackDescription } from '../signals/track.ts';
import { readWav } from '../signals/wav/read-wav.ts';
import type { WavNote } from '../signals/wav/wav-format.ts';
import type { ContentStore, Kept } from './content-store.ts';

/** What a recording file holds, as its header says. */
export interface WavFacts {
  rateHz: number;
  channels: number;
  frames: number;
  durationS: number;
  bits: number;
  floatingPoint: boolean;
  notes: WavNote[];
}

/** The largest recording taken in: what the reader can read. */
export const recordingBytesMax = 2 ** 30;

/** Keeps a recording as it is; refused is only what no reader can read. */
export function keepRecording(
  content: ContentStore,
  pieces: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  sha256?: string,
): Promise<Result<Kept & { checked: WavFacts }>> {
  return content.receive('recordings', pieces, {
    bytesMax: recordingBytesMax,
    ...(sha256 === undefined ? {} : { sha256 }),
    check: (source) => {
      const read = readWav(source);
      if (!read.ok) return read;
      const { rateHz, channels, frames, bits, floatingPoint } = read.value.recording;
      const durationS = frames / rateHz;
      return success({ rateHz, channels, frames, durationS, bits, floatingPoint, notes: read.value.notes });
    },
  });
}

/** The bytes of a description, by whose hash a track is called. */
export function trackBytes(track: TrackDescription): Uint8Array {
  return new TextEncoder().encode(`${canonicalJson(track)}\n`);
}

/** Keeps the description of a track. */
export function keepTrack(content: ContentStore, track: TrackDescription): Promise<Result<Kept>> {
  const bytes = trackBytes(track);
  return content.receive('tracks', [bytes], { bytesMax: bytes.length, check: () => success(null) });
}

/** A kept description; null where there is none. */
export async function keptTrack(content: ContentStore, sha256: string): Promise<TrackDescription | null> {
  const source = await content.open('tracks', sha256);
  if (source === null) return null;
  try {
    return JSON.parse(new TextDecoder().decode(source.read(0, source.byteLength))) as TrackDescription;
  } finally {
    source.close();
  }
}

// Makes the sound of a track from its description, beside the page.
import type { TrackDescription } from '../../signals/track.ts';
import { trackAudio } from '../../signals/track-audio.ts';
import { encodeSamples } from '../../signals/wav/encode-samples.ts';
import { type WavLayout, wavByteLength, wavHeader } from '../../signals/wav/wav-header.ts';
import type { MakerReport } from './track-maker-messages.ts';

const scope = self as unknown as {
  postMessage(report: MakerReport, transfer?: Transferable[]): void;
  onmessage: ((event: MessageEvent<TrackDescription>) => void) | null;
};

const blockFrames = 65_536;
const format = '24';

function made(track: TrackDescription): void {
  const audio = trackAudio(track);
  const [silent] = audio.silentSegments;
  if (silent) throw new Error(`The description does not say enough to play its ${silent.kind} at ${silent.startS} s.`);
  const layout: WavLayout = { channels: audio.channels, rateHz: audio.rateHz, format, frames: audio.frames };
  const wav = new Uint8Array(wavByteLength(layout));
  const header = wavHeader(layout);
  wav.set(header);
  const channels = Array.from({ length: audio.channels }, () => new Float32Array(audio.frames));
  let at = header.length;
  for (let start = 0; start < audio.frames; start += blockFrames) {
    const block = audio.renderBlock(start, Math.min(blockFrames, audio.frames - start));
    for (const [channel, samples] of block.entries()) channels[channel].set(samples, start);
    const bytes = encodeSamples(block, start, { format });
    wav.set(bytes, at);
    at += bytes.length;
    scope.postMessage({ say: 'progress', share: start / audio.frames });
  }
  scope.postMessage({ say: 'made', channels, wav: wav.buffer }, [wav.buffer, ...channels.map(({ buffer }) => buffer)]);
}

scope.onmessage = ({ data }) => {
  try {
    made(data);
  } catch (error) {
    scope.postMessage({ say: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
};

// The recordings that stand beside the vectors, read as any other.
import { readFileSync } from 'node:fs';
import { byteSourceFromArray, type Recording } from '../../src/signals/recording.ts';
import { readWav } from '../../src/signals/wav/read-wav.ts';

/** A WAV file of this folder, or of the one given. */
export function recordingFile(name: string, folder: string | URL = new URL('./', import.meta.url)): Recording {
  const reading = readWav(byteSourceFromArray(readFileSync(new URL(name, folder))));
  if (!reading.ok) throw new Error(`${name}: ${reading.issues.map(({ message }) => message).join(' ')}`);
  return reading.value.recording;
}

/** All samples of one channel. */
export function samplesOf(recording: Recording, channel = 0): Float64Array {
  const samples = new Float64Array(recording.frames);
  recording.readChannel(channel, 0, recording.frames, samples);
  return samples;
}

import { expect, test } from 'vitest';
import { shortTrack } from '../../test/job/workshops.ts';
import { byteSourceFromArray } from '../signals/recording.ts';
import { trackAudio } from '../signals/track-audio.ts';
import { readWav } from '../signals/wav/read-wav.ts';
import { isPlayable, trackSound } from './track-sound.ts';

test('the pieces are one WAV file of the length that was said, with the sound of the description', () => {
  const track = shortTrack();
  const sound = trackSound(track);
  if (sound === null) throw new Error('our own tracks can be made');
  const file = Buffer.concat([...sound.pieces()]);
  expect(file.length).toBe(sound.byteLength);
  const wav = readWav(byteSourceFromArray(file));
  if (!wav.ok) throw new Error(wav.issues[0].message);
  const { recording, notes } = wav.value;
  expect(notes).toEqual([]);
  const audio = trackAudio(track);
  expect(recording).toMatchObject({ rateHz: track.rateHz, channels: 2, frames: audio.frames, bits: 24 });
  const [left] = audio.renderBlock(40_000, 20_000);
  const read = new Float64Array(20_000);
  recording.readChannel(0, 40_000, 20_000, read);
  // One 24-bit step, of which rounding takes half, and the slight asymmetry of full scale.
  for (let n = 0; n < 20_000; n++) expect(Math.abs(read[n] - left[n])).toBeLessThan(2.4e-7);
});

test('a description that leaves out what it plays has no sound', () => {
  const track = shortTrack();
  const foreign = { ...track, segments: [...track.segments, { kind: 'whistle', startS: 1, durationS: 1 }] };
  expect(trackSound(foreign)).toBeNull();
  expect(isPlayable(foreign)).toBe(false);
  expect(isPlayable(track)).toBe(true);
});

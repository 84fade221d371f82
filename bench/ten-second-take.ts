// The take that the speed figures are about: a door of a simulated car, ten seconds at 48 kHz, as a file.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { carFromSeed } from '../src/practice/car-from-seed.ts';
import { renderTake } from '../src/practice/render-take.ts';
import type { TrackDescription } from '../src/signals/track.ts';
import { designTrack } from '../src/signals/track-design/design-track.ts';
import { writeWav } from '../src/signals/wav/write-wav.ts';

export interface TakeFiles {
  wav: string;
  description: string;
  track: TrackDescription;
}

/** Markers, a sweep of four seconds from 20 Hz to 20 kHz, markers; 24 bit, clocks 43 ppm apart. */
export function tenSecondTake(folder: string): TakeFiles {
  const wish = { kind: 'sweep', rateHz: 48_000, side: 'left', fromHz: 20, toHz: 20_000, stimulusS: 4 } as const;
  const made = designTrack(wish);
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '));
  const track = made.value;
  const take = renderTake({
    track,
    car: carFromSeed(1, 'ordinary', { system: 'two-way' }),
    on: ['door-left', 'tweeter-right'],
    recorder: { bits: 24, driftPpm: 43, gainDb: 12, startS: 0.2, durationS: 10 },
    seed: 1,
  });
  const wav = join(folder, 'take.wav');
  const description = join(folder, 'take.track.json');
  writeFileSync(wav, writeWav({ channels: take.samples, rateHz: take.rateHz, format: '24' }));
  writeFileSync(description, JSON.stringify(track));
  return { wav, description, track };
}

// Steady tones of a track, as recorded: level, distortion, and the floor under it.
import { dbFromAmplitude } from '../base/decibel.ts';
import { powerOfTwoFrom, realFft } from '../signals/fft.ts';
import type { Recording } from '../signals/recording.ts';
import type { ToneSegment } from '../signals/track.ts';
import type { ToneReading } from './reading.ts';
import type { TimedEvent } from './timeline.ts';

/** Four-term window whose side lobes lie 92 dB down: a loud fundamental does not reach its harmonics. */
const WINDOW = [0.35875, 0.48829, 0.14128, 0.01168];
const LONGEST_S = 1.4;

/**
 * Level and distortion of one tone.
 *
 * Power of each harmonic within four bins of where it should be; the floor is what lies just outside those bins.
 *
 * @param rateHz samples per second on the player's clock
 * @returns levels null where the tone is too short (100 ms) to tell
 * Source: F. J. Harris, On the use of windows for harmonic analysis, Proc. IEEE 66(1), 1978 (4-term Blackman-Harris);
 *   THD re the fundamental, IEC 60268-21.
 */
export function toneReading(recording: Recording, channel: number, event: TimedEvent, rateHz: number): ToneReading {
  const segment = event.segment as ToneSegment;
  const edge = Math.max(segment.fadeInS ?? 0, segment.fadeOutS ?? 0, 0.05);
  const from = Math.ceil(event.start + edge * rateHz + 0.05 * rateHz);
  const to = Math.floor(Math.min(event.end - edge * rateHz, recording.frames));
  const length = Math.min(to - from, Math.round(LONGEST_S * rateHz));
  const base: ToneReading = {
    fHz: segment.fHz,
    startS: event.start / recording.rateHz,
    levelDbfs: null,
    thdPct: null,
    floorPct: null,
  };
  if (length < 0.1 * rateHz || from < 0 || segment.fHz > 0.45 * rateHz) return base;
  const block = new Float64Array(length);
  recording.readChannel(channel, from, length, block);
  let sum = 0;
  for (let n = 0; n < length; n++) {
    const turn = (2 * Math.PI * (n + 0.5)) / length;
    const weight =
      WINDOW[0] - WINDOW[1] * Math.cos(turn) + WINDOW[2] * Math.cos(2 * turn) - WINDOW[3] * Math.cos(3 * turn);
    block[n] *= weight;
    sum += weight * weight;
  }
  const size = powerOfTwoFrom(2 * length);
  const { re, im } = realFft(block, size);
  // Half width of the window's main lobe, in bins of the padded transform.
  const lobe = Math.ceil((4 * size) / length);
  const power = (centre: number): number => {
    let total = 0;
    for (let k = centre - lobe; k <= centre + lobe; k++) total += re[k] ** 2 + im[k] ** 2;
    return total;
  };
  const harmonics: number[] = [];
  const floors: number[] = [];
  for (let order = 1; order <= 5; order++) {
    const centre = Math.round((order * segment.fHz * size) / rateHz);
    if (centre + 3 * lobe + 1 >= re.length || centre - 3 * lobe - 1 <= 0) break;
    harmonics.push(power(centre));
    floors.push(0.5 * (power(centre - 2 * lobe - 1) + power(centre + 2 * lobe + 1)));
  }
  if (harmonics.length === 0 || harmonics[0] <= 0) return base;
  // Parseval over the lobe: power of a sine of amplitude a is a^2 / 4 times size times the window's energy.
  const amplitude = Math.sqrt((4 * Math.max(harmonics[0] - floors[0], 0)) / (size * sum));
  if (amplitude <= 0) return base;
  const thd = Math.sqrt(harmonics.slice(1).reduce((total, p) => total + p, 0) / harmonics[0]);
  const floor = Math.sqrt(floors.slice(1).reduce((total, p) => total + p, 0) / harmonics[0]);
  return {
    ...base,
    levelDbfs: dbFromAmplitude(amplitude),
    thdPct: harmonics.length > 1 ? 100 * thd : null,
    floorPct: harmonics.length > 1 ? 100 * floor : null,
  };
}

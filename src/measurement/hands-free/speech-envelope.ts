// How loud the speech band of a recording is from moment to moment.
import { powerOfTwoFrom, realFft } from '../../signals/fft.ts';
import type { Recording } from '../../signals/recording.ts';

/** The band that telephones carry everywhere, Hz. */
const SPEECH_HZ = { low: 300, high: 3400 };
const FRAME_S = 0.02;
export const HOP_S = 0.005;

/** Power of the speech band, full scale squared, one value each 5 ms; empty where the recording is shorter than a frame. */
export function speechEnvelope(recording: Recording, input: number): Float64Array {
  const { rateHz, frames } = recording;
  const length = Math.round(FRAME_S * rateHz);
  const size = powerOfTwoFrom(length);
  const count = Math.max(0, Math.floor((frames - length) / rateHz / HOP_S) + 1);
  const window = Float64Array.from({ length }, (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / length));
  const energy = window.reduce((sum, w) => sum + w * w, 0);
  const from = Math.ceil((SPEECH_HZ.low * size) / rateHz);
  const to = Math.min(size / 2, Math.floor((SPEECH_HZ.high * size) / rateHz));
  const piece = new Float64Array(size);
  return Float64Array.from({ length: frames < length ? 0 : count }, (_, i) => {
    recording.readChannel(input, Math.round(i * HOP_S * rateHz), length, piece);
    for (let n = 0; n < length; n++) piece[n] *= window[n];
    piece.fill(0, length);
    const { re, im } = realFft(piece, size);
    let power = 0;
    for (let k = from; k <= to; k++) power += re[k] ** 2 + im[k] ** 2;
    return (2 * power) / (size * energy);
  });
}

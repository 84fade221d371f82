// Ways in which a recording can come to harm, each drawn from one seed: what devices, programs and people do to files.
import { gauss, uniform } from '../../src/base/random.ts';
import type { WavSampleFormat } from '../../src/signals/wav/wav-header.ts';
import { writeWav } from '../../src/signals/wav/write-wav.ts';

/** A good recording, to be spoilt. */
export interface GoodTake {
  samples: Float64Array;
  rateHz: number;
  format: WavSampleFormat;
  /** Recordings of other things on the same recorder; the first of another track. */
  others: Float64Array[];
}

/** The file that results, and what of the truth it changed on purpose. */
export interface SpoiltFile {
  name: string;
  bytes: Uint8Array;
  gainDb: number;
  sign: 1 | -1;
  /** The recorder's gain is nobody's truth: only the shape of a response counts. */
  levelFree: boolean;
}

/** Draws in order from one seed. */
interface Draw {
  between(low: number, high: number): number;
  whole(low: number, high: number): number;
  /** Between, evenly in the logarithm. */
  ratio(low: number, high: number): number;
  noise(length: number): Float64Array;
}

function drawFrom(seed: number): Draw {
  let n = 0;
  const between = (low: number, high: number): number => low + (high - low) * uniform(seed, n++);
  return {
    between,
    whole: (low, high) => Math.floor(between(low, high + 1)),
    ratio: (low, high) => low * (high / low) ** between(0, 1),
    noise: (length) => Float64Array.from({ length }, (_, i) => gauss(seed ^ 0x5bd1e995, i)),
  };
}

const joined = (...parts: Float64Array[]): Float64Array => {
  const whole = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

/** A tune of decaying harmonic notes: it is no test track, but has onsets, bass and treble. */
function tune(length: number, rateHz: number, draw: Draw): Float64Array {
  const out = new Float64Array(length);
  for (let start = 0; start < length; start += Math.round(rateHz * draw.between(0.1, 0.3))) {
    const fHz = 55 * 2 ** (draw.whole(0, 48) / 12);
    const level = draw.between(0.02, 0.2);
    for (let i = 0; i < rateHz * 0.8 && start + i < length; i++) {
      const t = i / rateHz;
      let value = 0;
      for (let h = 1; h <= 6 && h * fHz < 0.45 * rateHz; h++) value += Math.sin(2 * Math.PI * h * fHz * t) / h;
      out[start + i] += level * value * Math.exp(-4 * t) * Math.min(1, 200 * t);
    }
  }
  return out;
}

/** Start and length of a random piece between the two lengths, s. */
function piece(take: GoodTake, draw: Draw, shortestS: number, longestS: number): { start: number; length: number } {
  const length = Math.round(draw.ratio(shortestS, longestS) * take.rateHz);
  return { start: draw.whole(0, Math.max(0, take.samples.length - length)), length };
}

interface Changed {
  samples: Float64Array;
  gainDb?: number;
  sign?: -1;
  levelFree?: true;
}

type Change = (take: GoodTake, draw: Draw) => Float64Array | Changed;

/** Changes of the sound itself. */
const soundChanges: Record<string, Change> = {
  'start cut off': ({ samples }, draw) => samples.slice(draw.whole(1, samples.length - 2)),
  'end cut off': ({ samples }, draw) => samples.slice(0, draw.whole(1, samples.length - 1)),
  'both ends cut off': ({ samples }, draw) =>
    samples.slice(draw.whole(0, samples.length >> 1), draw.whole((samples.length >> 1) + 1, samples.length)),
  'piece lost': (take, draw) => {
    const { start, length } = piece(take, draw, 0.0002, 1);
    return joined(take.samples.subarray(0, start), take.samples.subarray(start + length));
  },
  'piece doubled': (take, draw) => {
    const { start, length } = piece(take, draw, 0.0002, 1);
    return joined(take.samples.subarray(0, start + length), take.samples.subarray(start));
  },
  'piece silenced': (take, draw) => {
    const { start, length } = piece(take, draw, 0.001, 1.5);
    return take.samples.slice().fill(0, start, start + length);
  },
  'piece held': (take, draw) => {
    const { start, length } = piece(take, draw, 0.001, 1);
    return take.samples.slice().fill(take.samples[start], start, start + length);
  },
  'piece overwritten by noise': (take, draw) => {
    const { start, length } = piece(take, draw, 0.001, 1.5);
    const out = take.samples.slice();
    const level = draw.ratio(0.0003, 0.3);
    draw.noise(length).forEach((x, i) => {
      if (start + i < out.length) out[start + i] = level * x;
    });
    return out;
  },
  'piece overwritten by another sound': (take, draw) => {
    const { start, length } = piece(take, draw, 0.01, 1.5);
    const out = take.samples.slice();
    const other = take.others[draw.whole(0, take.others.length - 1)];
    const from = draw.whole(0, Math.max(0, other.length - length - 1));
    out.set(other.subarray(from, from + Math.min(length, out.length - start)), start);
    return out;
  },
  'piece overwritten by another of its own': (take, draw) => {
    const { start, length } = piece(take, draw, 0.01, 1);
    const out = take.samples.slice();
    const from = draw.whole(0, Math.max(0, out.length - length - 1));
    out.set(take.samples.subarray(from, from + Math.min(length, out.length - start)), start);
    return out;
  },
  'noise added': (take, draw) => {
    const level = draw.ratio(0.0001, 0.5);
    const noise = draw.noise(take.samples.length);
    return take.samples.map((x, i) => x + level * noise[i]);
  },
  'noise added for a while': (take, draw) => {
    const { start, length } = piece(take, draw, 0.02, 1.5);
    const level = draw.ratio(0.0003, 0.3);
    const noise = draw.noise(take.samples.length);
    return take.samples.map((x, i) => (i >= start && i < start + length ? x + level * noise[i] : x));
  },
  'tune added': (take, draw) => {
    const level = draw.ratio(0.003, 1);
    const music = tune(take.samples.length, take.rateHz, draw);
    return take.samples.map((x, i) => x + level * music[i]);
  },
  clicks: (take, draw) => {
    const out = take.samples.slice();
    for (let count = draw.whole(1, 40); count > 0; count--) out[draw.whole(0, out.length - 1)] = draw.between(-1, 1);
    return out;
  },
  clipped: (take, draw) => {
    const gainDb = draw.between(0, 50);
    return { samples: take.samples.map((x) => x * 10 ** (gainDb / 20)), gainDb };
  },
  'flattened at a lower level': (take, draw) => {
    const peak = take.samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
    const limit = peak * draw.ratio(0.02, 1);
    return take.samples.map((x) => Math.max(-limit, Math.min(limit, x)));
  },
  quieter: (take, draw) => {
    const gainDb = -draw.between(0, 100);
    return { samples: take.samples.map((x) => x * 10 ** (gainDb / 20)), gainDb };
  },
  'gain that jumps': (take, draw) => {
    const gain = draw.ratio(0.1, 1.5);
    const at = draw.whole(0, take.samples.length - 1);
    return { samples: take.samples.map((x, i) => (i < at ? x : x * gain)), levelFree: true };
  },
  'gain that slides': (take, draw) => {
    const db = draw.between(-20, 10);
    const samples = take.samples.map((x, i) => x * 10 ** ((db * i) / take.samples.length / 20));
    return { samples, levelFree: true };
  },
  'offset from zero': (take, draw) => {
    const offset = draw.between(-0.5, 0.5);
    return take.samples.map((x) => x + offset);
  },
  'turned over': ({ samples }) => ({ samples: samples.map((x) => -x), sign: -1 }),
  'played backwards': ({ samples }) => samples.slice().reverse(),
  'played twice': ({ samples }) => joined(samples, samples),
  // Later than a car sounds: sooner it would be part of the car.
  'its own echo': (take, draw) => {
    const delay = draw.whole(0.3 * take.rateHz, take.rateHz);
    const share = draw.between(-1, 1);
    return take.samples.map((x, i) => x + (i >= delay ? share * take.samples[i - delay] : 0));
  },
  silence: ({ samples }) => new Float64Array(samples.length),
  'noise only': (take, draw) => {
    const level = draw.ratio(0.00003, 0.3);
    return draw.noise(take.samples.length).map((x) => level * x);
  },
  'a tone only': (take, draw) => {
    const turn = (2 * Math.PI * draw.ratio(20, 0.45 * take.rateHz)) / take.rateHz;
    const level = draw.ratio(0.001, 1);
    return take.samples.map((_, i) => level * Math.sin(turn * i));
  },
  'a tune only': (take, draw) => tune(take.samples.length, take.rateHz, draw),
  'another recording': ({ others }) => others[0].slice(),
  'two samples left': ({ samples }, draw) => samples.slice(0, draw.whole(1, 3)),
};

/** Changes of the bytes of a file. */
const fileChanges: Record<string, (bytes: Uint8Array, draw: Draw) => Uint8Array> = {
  'bits of the sound flipped': (bytes, draw) => {
    for (let count = Math.round(draw.ratio(1, 3000)); count > 0; count--) {
      bytes[draw.whole(44, bytes.length - 1)] ^= 1 << draw.whole(0, 7);
    }
    return bytes;
  },
  'bits of the header flipped': (bytes, draw) => {
    for (let count = draw.whole(1, 3); count > 0; count--) bytes[draw.whole(0, 43)] ^= 1 << draw.whole(0, 7);
    return bytes;
  },
  'header lies about the rate': (bytes, draw) => {
    const view = new DataView(bytes.buffer);
    const usual = [8000, 11_025, 22_050, 32_000, 44_100, 48_000, 96_000];
    const rateHz = draw.between(0, 1) < 0.5 ? usual[draw.whole(0, usual.length - 1)] : draw.whole(4000, 200_000);
    view.setUint32(24, rateHz, true);
    view.setUint32(28, rateHz * view.getUint16(32, true), true);
    return bytes;
  },
  'header lies about the bits': (bytes, draw) => {
    const view = new DataView(bytes.buffer);
    const bits = [8, 16, 24, 32][draw.whole(0, 3)];
    view.setUint16(20, bits === 32 && draw.between(0, 1) < 0.5 ? 3 : 1, true);
    view.setUint16(34, bits, true);
    view.setUint16(32, bits / 8, true);
    view.setUint32(28, (view.getUint32(24, true) * bits) / 8, true);
    return bytes;
  },
  'header lies about the channels': (bytes, draw) => {
    const view = new DataView(bytes.buffer);
    const channels = draw.whole(2, 6);
    view.setUint16(22, channels, true);
    view.setUint16(32, channels * (view.getUint16(34, true) / 8), true);
    view.setUint32(28, view.getUint32(24, true) * view.getUint16(32, true), true);
    return bytes;
  },
  'bytes lost': (bytes, draw) => {
    const at = draw.whole(0, bytes.length - 1);
    const count = draw.whole(1, 5000);
    const left = bytes.slice(0, Math.max(at, bytes.length - count));
    left.set(bytes.subarray(Math.min(bytes.length, at + count)), at);
    return left;
  },
  'file cut short': (bytes, draw) => bytes.slice(0, draw.whole(0, bytes.length - 1)),
};

const soundNames = Object.keys(soundChanges);
export const corruptionNames = [...soundNames, ...Object.keys(fileChanges)];

/** The take spoilt in one way; the ways take turns so that each seed range holds them all. */
export function spoilt(take: GoodTake, seed: number): SpoiltFile {
  const draw = drawFrom(seed);
  const name = corruptionNames[seed % corruptionNames.length];
  const change = soundChanges[name];
  const fileOf = (channel: Float64Array): Uint8Array =>
    writeWav({ channels: [channel], rateHz: take.rateHz, format: take.format });
  const plain = { name, gainDb: 0, sign: 1 as const, levelFree: false };
  if (!change) return { ...plain, bytes: fileChanges[name](fileOf(take.samples), draw) };
  const changed = change(take, draw);
  const { samples, ...rest } = changed instanceof Float64Array ? { samples: changed } : changed;
  return { ...plain, ...rest, bytes: fileOf(samples) };
}

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import dithered from '../../../test/vectors/wav-16-bit-dither.json' with { type: 'json' };
import written from '../../../test/vectors/wav-24-bit.json' with { type: 'json' };
import { joined } from '../../../test/wav/made-wav.ts';
import { byteSourceFromArray, type Recording } from '../recording.ts';
import { encodeSamples } from './encode-samples.ts';
import { readWav } from './read-wav.ts';
import { type WavSampleFormat, wavHeader, wavTail } from './wav-header.ts';
import { digitalSilence, writeWav } from './write-wav.ts';

const formats: WavSampleFormat[] = ['16', '24', '32f'];

/** What the reader makes of a file, which must have nothing odd about it. */
function readBack(bytes: Uint8Array): Recording {
  const result = readWav(byteSourceFromArray(bytes));
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  expect(result.value.notes).toEqual([]);
  return result.value.recording;
}

function channelOf(recording: Recording, channel: number): Float64Array {
  const out = new Float64Array(recording.frames);
  recording.readChannel(channel, 0, recording.frames, out);
  return out;
}

/** The whole numbers of a 16-bit file, or of a 24-bit one. */
function numbersOf(bytes: Uint8Array, channel: number, fullScale: number): number[] {
  return [...channelOf(readBack(bytes), channel)].map((value) => value * fullScale);
}

describe('the bytes of a file', () => {
  it('are the plain 44 before whole numbers, at the places the specification gives', () => {
    const bytes = writeWav({ channels: [Float64Array.of(1), Float64Array.of(-1)], rateHz: 48000, format: '24' });
    const view = new DataView(bytes.buffer);
    expect(String.fromCharCode(...bytes.subarray(0, 4), ...bytes.subarray(8, 16))).toBe('RIFFWAVEfmt ');
    expect(view.getUint32(4, true)).toBe(42);
    expect(view.getUint32(16, true)).toBe(16);
    expect([view.getUint16(20, true), view.getUint16(22, true)]).toEqual([1, 2]);
    expect([view.getUint32(24, true), view.getUint32(28, true)]).toEqual([48000, 288_000]);
    expect([view.getUint16(32, true), view.getUint16(34, true)]).toEqual([6, 24]);
    expect(String.fromCharCode(...bytes.subarray(36, 40))).toBe('data');
    expect(view.getUint32(40, true)).toBe(6);
    expect([...bytes.subarray(44)]).toEqual([0xff, 0xff, 0x7f, 0x01, 0x00, 0x80]);
  });

  it('have the longer form with the count of frames before floats', () => {
    const bytes = writeWav({ channels: [Float64Array.of(0.5, -2)], rateHz: 44100, format: '32f' });
    const view = new DataView(bytes.buffer);
    expect([view.getUint16(20, true), view.getUint32(16, true), view.getUint16(36, true)]).toEqual([3, 18, 0]);
    expect(String.fromCharCode(...bytes.subarray(38, 42))).toBe('fact');
    expect(view.getUint32(46, true)).toBe(2);
    expect([view.getFloat32(58, true), view.getFloat32(62, true)]).toEqual([0.5, -2]);
  });

  it('end with a filling byte that the outer size counts when the samples are odd', () => {
    const bytes = writeWav({ channels: [new Float64Array(3)], rateHz: 48000, format: '24' });
    expect(bytes).toHaveLength(54);
    expect(new DataView(bytes.buffer).getUint32(4, true)).toBe(46);
    expect(new DataView(bytes.buffer).getUint32(40, true)).toBe(9);
  });

  it('may hold no frame at all', () => {
    for (const format of formats) {
      const bytes = writeWav({ channels: [new Float64Array(0)], rateHz: 48000, format });
      expect(readWav(byteSourceFromArray(bytes))).toMatchObject({ ok: false, issues: [{ code: 'empty' }] });
    }
  });

  it('are refused for layouts that cannot be', () => {
    const layout = { channels: 2, rateHz: 48000, format: '24' as const, frames: 10 };
    expect(() => wavHeader({ ...layout, channels: 0 })).toThrow('channels must be 1..64, got 0');
    expect(() => wavHeader({ ...layout, channels: 1.5 })).toThrow('whole');
    expect(() => wavHeader({ ...layout, rateHz: 0 })).toThrow('rateHz must be');
    expect(() => wavHeader({ ...layout, frames: -1 })).toThrow('bytes of the file');
    expect(() => wavHeader({ ...layout, frames: 2 ** 30 })).toThrow('bytes of the file');
    expect(() => wavHeader({ ...layout, frames: Number.NaN })).toThrow('whole');
    expect(wavHeader({ ...layout, frames: 700_000_000 })).toHaveLength(44);
  });
});

describe('whole numbers', () => {
  it('are those that an independent program wrote for the same chirp, 24 bits', () => {
    const { rateHz, fromHz, toHz, durationS, levelDbfs } = written.inputs;
    const frames = Math.round(durationS * rateHz);
    const edge = Math.floor(frames / 4);
    const chirp = Float64Array.from({ length: written.expected.numbers.length }, (_, n) => {
      const t = n / rateHz;
      const window = n < edge ? 0.5 - 0.5 * Math.cos((Math.PI * (n + 0.5)) / edge) : 1;
      const turns = fromHz * t + ((toHz - fromHz) * t * t) / (2 * durationS);
      return 10 ** (levelDbfs / 20) * window * Math.sin(2 * Math.PI * turns);
    });
    const bytes = writeWav({ channels: [chirp], rateHz, format: '24' });
    expect(numbersOf(bytes, 0, 2 ** 23)).toEqual(written.expected.numbers);
  });

  it('are those of an independent program with the same dither, 16 bits', () => {
    const { seed, startFrame, channels } = dithered.inputs;
    const bytes = encodeSamples(
      channels.map((channel) => Float64Array.from(channel)),
      startFrame,
      { format: '16', dither: { seed } },
    );
    const numbers = new Int16Array(bytes.buffer);
    dithered.expected.channels.forEach((expected, channel) => {
      expect(expected.map((_, i) => numbers[2 * i + channel])).toEqual(expected);
    });
  });

  it('reach full scale both ways, stop there, and keep the sign of what is rounded', () => {
    const values = Float64Array.of(1, -1, 1.5, -1.5, 0.5 / 32767, -0.5 / 32767, 0.49 / 32767, 0);
    const bytes = writeWav({ channels: [values], rateHz: 48000, format: '16' });
    expect(numbersOf(bytes, 0, 2 ** 15)).toEqual([32767, -32767, 32767, -32768, 1, -1, 0, 0]);
    const fine = writeWav({ channels: [values], rateHz: 48000, format: '24' });
    expect(numbersOf(fine, 0, 2 ** 23).slice(0, 4)).toEqual([8388607, -8388607, 8388607, -8388608]);
  });

  it('refuse what is not finite, with its place', () => {
    const write = (value: number) => () =>
      writeWav({ channels: [new Float64Array(5), Float64Array.of(0, 0, 0, value, 0)], rateHz: 48000, format: '24' });
    expect(write(Number.NaN)).toThrow('channel 1, frame 3 must be finite, got NaN');
    expect(write(Number.POSITIVE_INFINITY)).toThrow(RangeError);
    expect(write(1)).not.toThrow();
  });

  it('refuse channels of unequal length', () => {
    const unequal = [new Float64Array(65_536), new Float64Array(65_537)];
    expect(() => writeWav({ channels: unequal, rateHz: 48000, format: '16' })).toThrow('equally long');
    expect(() => encodeSamples(unequal, 0, { format: '16' })).toThrow('equally long');
  });
});

describe('dither', () => {
  const frames = 100_000;
  const constant = (value: number) =>
    writeWav({
      channels: [new Float64Array(frames).fill(value)],
      rateHz: 48000,
      format: '16',
      dither: { seed: 3, silentRanges: [] },
    });

  // The triangular dither's theorem: mean error zero and power a quarter of a step squared, whatever the value.
  it.each([0, 0.25, 0.5, 0.8, 1000.37])(
    'makes the error of %f steps noise without a mean, of a quarter of a step squared',
    (steps) => {
      const errors = numbersOf(constant(steps / 32767), 0, 2 ** 15).map((value) => value - steps);
      const mean = errors.reduce((sum, error) => sum + error, 0) / frames;
      const power = errors.reduce((sum, error) => sum + error * error, 0) / frames;
      // Four standard deviations of a mean over this many samples.
      expect(Math.abs(mean)).toBeLessThan((4 * 0.5) / Math.sqrt(frames));
      expect(Math.abs(power - 0.25)).toBeLessThan(0.005);
    },
  );

  it('differs between channels and seeds, and repeats with the seed', () => {
    const silence = new Float64Array(2000);
    const write = (seed: number) =>
      writeWav({ channels: [silence, silence], rateHz: 48000, format: '16', dither: { seed, silentRanges: [] } });
    expect(write(1)).toEqual(write(1));
    expect(write(1)).not.toEqual(write(2));
    expect(numbersOf(write(1), 0, 2 ** 15)).not.toEqual(numbersOf(write(1), 1, 2 ** 15));
  });

  it('leaves digital silence of 50 ms and more alone, and nothing shorter', () => {
    const channel = new Float64Array(12_000);
    channel[2399] = 0.5;
    channel[2399 + 2401] = 0.5;
    const numbers = numbersOf(
      writeWav({ channels: [channel], rateHz: 48000, format: '16', dither: { seed: 1 } }),
      0,
      2 ** 15,
    );
    const noisy = (from: number, to: number) => numbers.slice(from, to).some((value) => value !== 0);
    expect([noisy(0, 2399), noisy(2400, 4800), noisy(4801, 12_000)]).toEqual([true, false, false]);
  });

  it('does not take one silent side for a muted player', () => {
    const tone = Float64Array.from({ length: 9600 }, (_, i) => Math.sin(i));
    const bytes = writeWav({
      channels: [tone, new Float64Array(9600)],
      rateHz: 48000,
      format: '16',
      dither: { seed: 1 },
    });
    expect(numbersOf(bytes, 1, 2 ** 15).some((value) => value !== 0)).toBe(true);
  });

  it('returns where a stretch called silent is not', () => {
    const channel = new Float64Array(1000).fill(0.3 / 32767, 400, 600);
    const dither = { seed: 1, silentRanges: [{ startFrame: 0, frames: 1000 }] };
    const numbers = numbersOf(writeWav({ channels: [channel], rateHz: 48000, format: '16', dither }), 0, 2 ** 15);
    expect(numbers.slice(400, 600).some((value) => value !== 0)).toBe(true);
    expect(numbers.slice(0, 400).every((value) => value === 0)).toBe(true);
  });

  it('is not added to 24 bits and floats', () => {
    const channels = [Float64Array.from({ length: 500 }, (_, i) => Math.sin(i))];
    for (const format of ['24', '32f'] as const) {
      expect(writeWav({ channels, rateHz: 48000, format, dither: { seed: 1 } })).toEqual(
        writeWav({ channels, rateHz: 48000, format }),
      );
    }
  });
});

describe('digital silence', () => {
  it('is found at both ends and between', () => {
    const left = Float64Array.of(0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0);
    const right = Float64Array.of(0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0);
    expect(digitalSilence([left, right], 3)).toEqual([
      { startFrame: 0, frames: 3 },
      { startFrame: 4, frames: 3 },
      { startFrame: 9, frames: 3 },
    ]);
    expect(digitalSilence([new Float64Array(5)], 6)).toEqual([]);
    expect(digitalSilence([new Float64Array(5)], 5)).toEqual([{ startFrame: 0, frames: 5 }]);
    expect(digitalSilence([], 5)).toEqual([]);
  });
});

describe('any sound', () => {
  const sample = fc.double({ min: -1, max: 1, noNaN: true });
  const sound = fc
    .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 60 }))
    .chain(([channels, frames]) =>
      fc.array(fc.array(sample, { minLength: frames, maxLength: frames }), {
        minLength: channels,
        maxLength: channels,
      }),
    )
    .map((channels) => channels.map((channel) => Float64Array.from(channel)));
  const rate = fc.integer({ min: 8000, max: 192_000 });
  const format = fc.constantFrom(...formats);

  it('comes back within half a step, and exactly the second time', () => {
    fc.assert(
      fc.property(sound, rate, format, (channels, rateHz, kind) => {
        const recording = readBack(writeWav({ channels, rateHz, format: kind }));
        expect([recording.channels, recording.frames, recording.rateHz]).toEqual([
          channels.length,
          channels[0].length,
          rateHz,
        ]);
        // Written by 2^(b-1) - 1 and read by 2^(b-1): full scale comes back one step lower.
        const halfStep = { '16': 1.5 * 2 ** -15, '24': 1.5 * 2 ** -23, '32f': 2 ** -24 }[kind];
        const back = channels.map((_, channel) => channelOf(recording, channel));
        channels.forEach((values, channel) => {
          values.forEach((value, i) => {
            expect(Math.abs(back[channel][i] - value)).toBeLessThanOrEqual(halfStep);
          });
        });
        if (kind === '32f')
          expect(writeWav({ channels: back, rateHz, format: kind })).toEqual(
            writeWav({ channels, rateHz, format: kind }),
          );
      }),
      { seed: 71, numRuns: 300 },
    );
  });

  it('reversed is the same numbers reversed', () => {
    fc.assert(
      fc.property(sound, fc.constantFrom('16' as const, '24' as const), (channels, kind) => {
        const reversed = channels.map((channel) => channel.map((value) => -value));
        const there = channelOf(readBack(writeWav({ channels, rateHz: 48000, format: kind })), 0);
        const here = channelOf(readBack(writeWav({ channels: reversed, rateHz: 48000, format: kind })), 0);
        here.forEach((value, i) => {
          expect(value + there[i]).toBe(0);
        });
      }),
      { seed: 72, numRuns: 100 },
    );
  });

  it('is the same file written in pieces, dither and all', () => {
    fc.assert(
      fc.property(
        sound,
        format,
        fc.integer({ min: 1, max: 25 }),
        fc.boolean(),
        (channels, kind, pieceFrames, muted) => {
          const frames = channels[0].length;
          const quiet = muted
            ? channels.map((channel) => channel.map((value, i) => (i % 20 < 9 ? 0 : value)))
            : channels;
          const silentRanges = digitalSilence(quiet, 3);
          const dither = { seed: 99, silentRanges };
          const layout = { channels: channels.length, rateHz: 48000, format: kind, frames };
          const parts = [wavHeader(layout)];
          for (let start = 0; start < frames; start += pieceFrames) {
            const piece = quiet.map((channel) => channel.subarray(start, start + pieceFrames));
            parts.push(encodeSamples(piece, start, { format: kind, dither }));
          }
          parts.push(wavTail(layout));
          expect(joined(...parts)).toEqual(writeWav({ channels: quiet, rateHz: 48000, format: kind, dither }));
        },
      ),
      { seed: 73, numRuns: 200 },
    );
  });

  it('is not changed by being written', () => {
    const channel = Float64Array.from({ length: 100 }, (_, i) => 1.2 * Math.sin(i));
    const before = channel.slice();
    for (const kind of formats) writeWav({ channels: [channel], rateHz: 48000, format: kind, dither: { seed: 1 } });
    expect(channel).toEqual(before);
  });
});

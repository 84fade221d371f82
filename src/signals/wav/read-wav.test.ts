import { describe, expect, it } from 'vitest';
import formats from '../../../test/vectors/wav-formats.json' with { type: 'json' };
import * as made from '../../../test/wav/made-wav.ts';
import { byteSourceFromArray } from '../recording.ts';
import { readWav, type WavReading } from './read-wav.ts';

const { chunk, counting, formatBody, joined, number16, number32, number64, riff, text } = made;

function reading(bytes: Uint8Array): WavReading {
  const result = readWav(byteSourceFromArray(bytes));
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

function noteCodes(bytes: Uint8Array): string[] {
  return reading(bytes).notes.map((note) => note.code);
}

function samples(bytes: Uint8Array, channel = 0): number[] {
  const { recording } = reading(bytes);
  const out = new Float64Array(recording.frames);
  recording.readChannel(channel, 0, recording.frames, out);
  return [...out];
}

/** The samples of a 16-bit file as whole numbers. */
function numbers(bytes: Uint8Array): number[] {
  return samples(bytes).map((value) => value * 32768);
}

function issueCodes(bytes: Uint8Array): string[] {
  const result = readWav(byteSourceFromArray(bytes));
  return result.ok ? [] : result.issues.map((issue) => issue.code);
}

const oneToSix = [1, 2, 3, 4, 5, 6];
const format = chunk('fmt ', formatBody());
const data = chunk('data', counting(6));
const plain = riff([format, data]);

describe('every sample format', () => {
  it.each(formats.cases.map((entry) => [entry.name, entry] as const))('%s', (_, entry) => {
    const bytes = new Uint8Array(Buffer.from(entry.inputs.base64, 'base64'));
    const { recording, notes } = reading(bytes);
    const { expected } = entry;
    expect(notes).toEqual([]);
    expect(recording).toMatchObject({
      rateHz: expected.rateHz,
      channels: expected.channels.length,
      frames: expected.channels[0].length,
      bits: expected.bits,
      floatingPoint: expected.floatingPoint,
      stepSize: expected.floatingPoint ? 0 : 2 ** (1 - expected.bits),
    });
    expected.channels.forEach((channel, index) => {
      const got = samples(bytes, index);
      channel.forEach((value, i) => {
        expect(Math.abs(got[i] - value)).toBeLessThanOrEqual(entry.tolerance);
      });
    });
  });
});

describe('random access', () => {
  it('gives any stretch, with zeros where there is no recording', () => {
    const { recording } = reading(plain);
    const out = new Float64Array(10).fill(9);
    recording.readChannel(0, -2, 10, out);
    expect([...out].map((value) => value * 32768)).toEqual([0, 0, 1, 2, 3, 4, 5, 6, 0, 0]);
    recording.readChannel(0, 4, 3, out);
    expect([...out].slice(0, 4).map((value) => value * 32768)).toEqual([5, 6, 0, 2]);
    recording.readChannel(0, 100, 4, out);
    expect([...out].slice(0, 4)).toEqual([0, 0, 0, 0]);
    recording.readChannel(0, -100, 4, out.fill(9));
    expect([...out].slice(0, 5)).toEqual([0, 0, 0, 0, 9]);
    recording.readChannel(0, 3, 0, out);
    expect(out[0]).toBe(0);
  });

  it('is the same in pieces as at once, across the blocks in which it reads', () => {
    const long = riff([chunk('fmt ', formatBody({ channels: 2 })), chunk('data', counting(300_000))]);
    const { recording } = reading(long);
    const whole = new Float64Array(150_000);
    recording.readChannel(1, 0, 150_000, whole);
    expect(whole[149_999]).toBe(((300_000 << 16) >> 16) / 32768);
    const piece = new Float64Array(70_001);
    recording.readChannel(1, 66_000, 70_001, piece);
    expect(piece).toEqual(whole.slice(66_000, 136_001));
  });

  it('refuses a channel that is not there, and an array too small, as our own mistake', () => {
    const { recording } = reading(plain);
    expect(() => recording.readChannel(1, 0, 1, new Float64Array(1))).toThrow(RangeError);
    expect(() => recording.readChannel(-1, 0, 1, new Float64Array(1))).toThrow(RangeError);
    expect(() => recording.readChannel(0, 0, 2, new Float64Array(1))).toThrow('out must hold');
  });

  it('opens a file by its headers alone', () => {
    const source = made.watched(riff([format, chunk('data', new Uint8Array(50_000_000))]));
    expect(readWav(source).ok).toBe(true);
    expect(source.readBytes).toBeLessThan(2000);
  });

  it('decodes long recordings in pieces of some hundred thousand bytes', () => {
    const source = made.watched(riff([format, chunk('data', new Uint8Array(5_000_000))]));
    const result = readWav(source);
    if (!result.ok) throw new Error('refused');
    result.value.recording.readChannel(0, 0, 2_500_000, new Float64Array(2_500_000));
    expect(source.largestRead).toBeLessThan(300_000);
  });
});

describe('floats that are no sound', () => {
  const values = [0.5, Number.NaN, Number.POSITIVE_INFINITY, -2, Number.NEGATIVE_INFINITY, 1e30, -3e5];
  it.each([32, 64])('read as zero and are counted, %i bits', (bits) => {
    const body = bits === 32 ? new Float32Array(values) : new Float64Array(values);
    const bytes = riff([chunk('fmt ', formatBody({ tag: 3, bits })), chunk('data', new Uint8Array(body.buffer))]);
    expect(samples(bytes)).toEqual([0.5, 0, 0, -2, 0, 0, -3e5]);
    const { recording } = reading(bytes);
    expect(recording.notFinite(0, 0, 7)).toBe(4);
    expect(recording.notFinite(0, 2, 2)).toBe(1);
    expect(recording.notFinite(0, -5, 100)).toBe(4);
  });

  it('are never counted in whole numbers', () => {
    expect(reading(plain).recording.notFinite(0, 0, 6)).toBe(0);
  });
});

describe('chunks as recorders write them', () => {
  const odd = chunk('LIST', text('INFOx'));
  const oddUnfilled = chunk('LIST', text('INFOx'), 5, false);

  it.each([
    [
      'others before and after',
      riff([chunk('JUNK', new Uint8Array(28)), format, odd, data, chunk('id3 ', text('ab'))]),
      [],
    ],
    ['an odd one without its filling byte', riff([format, oddUnfilled, data]), ['no-padding']],
    ['an odd one with its filling byte', riff([format, odd, data]), []],
    ['sound before its description', riff([data, format]), ['data-before-format']],
    ['a second description', riff([format, chunk('fmt ', formatBody({ bits: 24 })), data]), []],
    ['a second block of sound', riff([format, data, data]), ['more-data']],
    ['an empty block of sound first', riff([format, chunk('data', new Uint8Array(0)), data]), []],
    ['sound without a size, 0', riff([format, chunk('data', counting(6), 0)]), ['size-unknown']],
    ['sound without a size, all ones', riff([format, chunk('data', counting(6), 0xffffffff)]), ['size-unknown']],
    ['neither size', riff([format, chunk('data', counting(6), 0)], 0), ['size-unknown']],
    [
      'a size beyond the end, in a file cut off',
      riff([format, chunk('data', counting(6), 112)], 148),
      ['data-cut-short'],
    ],
    ['a size beyond the end, in a whole file', riff([format, chunk('data', counting(6), 9999)]), ['size-contradicted']],
    ['half a frame at the end', riff([format, chunk('data', joined(counting(6), text('x')))]), ['part-frame']],
    ['bytes after the sound', joined(plain, new Uint8Array(20)), ['bytes-after-data']],
    ['a chunk cut off after the sound', joined(plain, text('LIST'), number32(900), text('INFO')), ['bytes-after-data']],
    [
      'a chunk whose size leads beyond the end',
      riff([format, chunk('LIST', text('INFO'), 0x7fffffff), data]),
      ['chunk-lost'],
    ],
    [
      'a chunk whose size leads into the sound',
      riff([chunk('LIST', text('INFO'), 44), format, data]),
      ['chunk-lost', 'chunk-lost'],
    ],
    [
      'words among lost chunks that look like names',
      riff([chunk('LIST', text('INFO fmt used, data sheet'), 0x7fffffff), format, data]),
      ['chunk-lost', 'chunk-lost'],
    ],
    ['a description whose size is 0', riff([chunk('fmt ', formatBody(), 0), data]), ['chunk-lost']],
    ['a description whose size is huge', riff([chunk('fmt ', formatBody(), 0xfffffff0), data]), ['chunk-lost']],
    ['a description of 18 bytes', riff([chunk('fmt ', joined(formatBody(), number16(0))), data]), []],
  ] as [string, Uint8Array, string[]][])('%s', (_, bytes, codes) => {
    expect(noteCodes(bytes)).toEqual(codes);
    expect(numbers(bytes)).toEqual(oneToSix);
  });

  it('says how much is missing of a file cut short', () => {
    const [note] = reading(riff([format, chunk('data', counting(6), 96_000)], 100_000)).notes;
    expect(note.values).toEqual({ frames: 6, promisedFrames: 48_000, missingFrames: 47_994 });
    expect(note.message).toContain('1.000 s');
    expect(note.where).toBe('chunk "data" at byte 36');
  });

  it('takes 64-bit sizes from their own chunk, and the end of the file where they lie', () => {
    const wide = (dataBytes: bigint, id = 'RF64') =>
      riff(
        [
          chunk('ds64', joined(number64(84n), number64(dataBytes), number64(6n), number32(0))),
          format,
          chunk('data', counting(6), 0xffffffff),
          chunk('LIST', text('INFO')),
        ],
        0xffffffff,
        id,
      );
    expect(numbers(wide(12n))).toEqual(oneToSix);
    expect(numbers(wide(12n, 'BW64'))).toEqual(oneToSix);
    expect(noteCodes(wide(12n))).toEqual([]);
    // The 12 bytes of the last chunk are taken for sound then: nothing in the file tells otherwise.
    expect(noteCodes(wide(1n << 63n))).toEqual(['data-cut-short']);
    expect(reading(wide(1n << 63n)).recording.frames).toBe(12);
    expect(noteCodes(wide(0n))).toEqual(['size-unknown']);
  });

  it('reads RF64 that never got its 64-bit sizes', () => {
    const bytes = riff(
      [chunk('JUNK', new Uint8Array(28)), format, chunk('data', counting(6), 0xffffffff)],
      0xffffffff,
      'RF64',
    );
    expect(numbers(bytes)).toEqual(oneToSix);
    expect(noteCodes(bytes)).toEqual(['size-unknown']);
  });

  it('is not kept busy by a file of nothing but empty chunks', () => {
    const header = joined(text('LIST'), number32(0));
    const empties = new Uint8Array(8 * 1_000_000);
    for (let at = 0; at < empties.length; at += 8) empties.set(header, at);
    const source = made.watched(riff([format, empties]));
    expect(readWav(source)).toMatchObject({ ok: false, issues: [{ code: 'no-data' }] });
    expect(source.reads).toBeLessThan(10_000);
  });
});

describe('a description that contradicts itself', () => {
  const described = (fields: made.FormatFields, body = counting(6)) =>
    riff([chunk('fmt ', formatBody(fields)), chunk('data', body)]);

  it.each([
    ['frame size 0', { frameBytes: 0, bytesPerSecond: 96_000 }, 1],
    ['frame size too large', { frameBytes: 6, bytesPerSecond: 96_000 }, 1],
    ['no bits', { bits: 0, frameBytes: 2 }, 1],
    ['no channels', { channels: 0, frameBytes: 2, bytesPerSecond: 96_000 }, 1],
    ['65535 channels', { channels: 65_535, frameBytes: 2, bytesPerSecond: 96_000 }, 1],
    ['two channels too many', { channels: 3, frameBytes: 2 }, 1],
    ['one channel too few', { channels: 1, frameBytes: 4, bytesPerSecond: 192_000 }, 2],
    ['an impossible number of bits', { bits: 80, frameBytes: 2 }, 1],
  ] as [string, made.FormatFields, number][])('%s is repaired by what the other fields tell', (_, fields, channels) => {
    const { recording, notes } = reading(described(fields));
    expect(recording.channels).toBe(channels);
    expect(notes.map((note) => note.code)).toEqual(['format-repaired']);
    const out = new Float64Array(6 / channels);
    recording.readChannel(0, 0, 6 / channels, out);
    expect(out[1] * 32768).toBe(1 + channels);
  });

  it.each([
    ['nothing that fits', { channels: 0, frameBytes: 0, bits: 0 }],
    ['65535 channels and a frame to match', { channels: 65_535, bits: 8 }],
    ['one bit', { bits: 1, frameBytes: 0, bytesPerSecond: 0 }],
    ['floats of 16 bits', { tag: 3, bits: 16 }],
    ['floats of 24 bits', { tag: 3, bits: 24 }],
    ['rate 0 and nothing to tell it', { rateHz: 0 }],
    ['rate 4 GHz', { rateHz: 0xffffffff, bytesPerSecond: 0 }],
  ] as [string, made.FormatFields][])('%s is refused', (_, fields) => {
    expect(issueCodes(described(fields))).toEqual(['bad-format']);
  });

  it('takes 16-bit samples that claim to be floats for what they cannot be', () => {
    const result = readWav(byteSourceFromArray(described({ tag: 3, bits: 16 })));
    expect(result).toMatchObject({ ok: false, issues: [{ where: 'chunk "fmt " at byte 12' }] });
  });

  it.each([
    [{ rateHz: 0, bytesPerSecond: 96_000 }, 48_000, ['rate-repaired']],
    [{ rateHz: 47_744, bytesPerSecond: 96_000 }, 48_000, ['rate-repaired']],
    [{ rateHz: 44_100, bytesPerSecond: 96_000 }, 44_100, ['rate-contradicted']],
    [{ rateHz: 48_000, bytesPerSecond: 0 }, 48_000, ['rate-contradicted']],
    [{ rateHz: 47_952 }, 47_952, []],
    [{ rateHz: 5512 }, 5512, ['rate-implausible']],
    [{ rateHz: 384_000 }, 384_000, ['rate-implausible']],
  ] as [made.FormatFields, number, string[]][])('rate %o reads as %i Hz', (fields, rateHz, codes) => {
    expect(reading(described(fields)).recording.rateHz).toBe(rateHz);
    expect(noteCodes(described(fields))).toEqual(codes);
  });

  it('takes the true bits of the extended header, unless they are impossible', () => {
    const body = (bits: number) =>
      joined(
        formatBody({ tag: 0xfffe, bits: 24 }),
        number16(22),
        number16(bits),
        number32(4),
        number16(1),
        text('\0\0\0\0\x10\0\x80\0\0\xaa\0\x38\x9b\x71'),
      );
    const bits = (told: number) =>
      reading(riff([chunk('fmt ', body(told)), chunk('data', counting(6))])).recording.bits;
    expect([bits(20), bits(24), bits(0), bits(32)]).toEqual([20, 24, 24, 24]);
  });

  it('takes the tag from an unfamiliar sub-format, and says so', () => {
    const body = joined(
      formatBody({ tag: 0xfffe }),
      number16(22),
      number16(16),
      number32(4),
      number16(1),
      new Uint8Array(14),
    );
    expect(noteCodes(riff([chunk('fmt ', body), data]))).toEqual(['sub-format-unfamiliar']);
  });

  it('takes up to 24 bits for whole numbers where the sub-format is missing, but does not guess with 32', () => {
    expect(noteCodes(described({ tag: 0xfffe }))).toEqual(['sub-format-unfamiliar']);
    expect(issueCodes(described({ tag: 0xfffe, bits: 32 }))).toEqual(['compressed-format']);
  });
});

describe('what cannot be read', () => {
  it('is refused by the name of its format when it is compressed', () => {
    const message = (tag: number) => {
      const result = readWav(byteSourceFromArray(riff([chunk('fmt ', formatBody({ tag })), data])));
      return result.ok ? '' : `${result.issues[0].code}: ${result.issues[0].message}`;
    };
    expect(message(2)).toBe(
      'compressed-format: The sound is stored as ADPCM, format tag 0x0002, not as plain samples.',
    );
    expect(message(6)).toContain('A-law');
    expect(message(7)).toContain('mu-law');
    expect(message(0x11)).toContain('IMA ADPCM');
    expect(message(0x31)).toContain('GSM');
    expect(message(0x55)).toContain('MP3');
    expect(message(0xbeef)).toContain('unknown format, tag 0xBEEF');
  });

  it.each([
    ['an empty file', new Uint8Array(0), ['empty']],
    ['a header cut off', plain.subarray(0, 10), ['not-a-wav']],
    ['a header and nothing else', plain.subarray(0, 12), ['no-format', 'no-data']],
    ['no description', riff([data]), ['no-format']],
    ['no sound', riff([format, chunk('LIST', text('INFO'))]), ['no-data']],
    ['a description cut off', plain.subarray(0, 30), ['no-data']],
    ['a description cut off after the sound', riff([data, format]).subarray(0, 42), ['bad-format']],
    ['sound of no length', riff([format, chunk('data', new Uint8Array(0))]), ['empty']],
    [
      'sound of no length before another chunk',
      riff([format, chunk('data', new Uint8Array(0)), chunk('LIST', text('INFO'))]),
      ['empty'],
    ],
    ['less than a frame', riff([chunk('fmt ', formatBody({ channels: 2 })), chunk('data', counting(1))]), ['empty']],
    ['a kind of RIFF that is not WAVE', joined(text('RIFF'), number32(4), text('WAVF')), ['not-a-wav']],
  ] as [string, Uint8Array, string[]][])('%s', (_, bytes, codes) => {
    expect(issueCodes(bytes)).toEqual(codes);
  });

  it('always says where and how to mend it', () => {
    for (const bytes of [
      new Uint8Array(0),
      plain.subarray(0, 12),
      plain.subarray(0, 30),
      riff([data]),
      text('{"a":1}'),
    ]) {
      const result = readWav(byteSourceFromArray(bytes));
      if (result.ok) throw new Error('read');
      for (const issue of result.issues) {
        expect(issue.where).toBeTruthy();
        expect(issue.mend).toBeTruthy();
      }
    }
  });

  it('names the largest chunk there is when the sound is missing', () => {
    const result = readWav(byteSourceFromArray(riff([format, chunk('dbta', counting(6))])));
    expect(result).toMatchObject({ ok: false, issues: [{ message: expect.stringContaining('"dbta"') }] });
  });

  /** A source that pretends: `head`, then zeros up to `byteLength`. */
  const pretended = (head: Uint8Array, byteLength: number) => ({
    byteLength,
    read(offset: number, length: number) {
      const bytes = new Uint8Array(length);
      bytes.set(head.subarray(Math.min(offset, head.length), Math.min(offset + length, head.length)));
      return bytes;
    },
  });

  it('refuses more than 1 GiB and more than 2 hours, but takes ten minutes of 96 kHz stereo in 32 bits', () => {
    const of = (fields: made.FormatFields, byteLength: number) => {
      const head = riff(
        [chunk('fmt ', formatBody(fields)), chunk('data', new Uint8Array(0), byteLength - 44)],
        byteLength - 8,
      );
      const result = readWav(pretended(head, byteLength));
      return result.ok ? result.value.recording.frames : result.issues[0].code;
    };
    expect(of({}, 2 ** 30 + 2)).toBe('too-large');
    expect(of({}, 44 + 2 * 48_000 * 7200)).toBe(48_000 * 7200);
    expect(of({}, 46 + 2 * 48_000 * 7200)).toBe('too-long');
    expect(of({ channels: 2, rateHz: 96_000, bits: 32 }, 44 + 8 * 96_000 * 600)).toBe(96_000 * 600);
  });
});

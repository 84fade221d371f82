// Seeded damage: whatever happens to a file, it is refused plainly or read as sound, quickly and in little memory.
import { describe, expect, it } from 'vitest';
import * as made from '../../../test/wav/made-wav.ts';
import { hash32, uniform } from '../../base/random.ts';
import { readWav } from './read-wav.ts';

const { chunk, formatBody, joined, number16, number32, number64, riff, text } = made;

/** Something like sound, not silence: 3000 bytes of a wandering wave. */
const sound = Uint8Array.from({ length: 3000 }, (_, i) => (i % 2 === 0 ? hash32(9, i) & 255 : (i >> 4) & 63));
const floats = new Uint8Array(Float32Array.from({ length: 700 }, (_, i) => uniform(4, i) - 0.5).buffer);
const pcmGuid = text('\x01\0\0\0\0\0\x10\0\x80\0\0\xaa\0\x38\x9b\x71');
const extensible = joined(
  formatBody({ tag: 0xfffe, channels: 2, bits: 24 }),
  number16(22),
  number16(24),
  number32(3),
  pcmGuid,
);
const wide = joined(number64(3100n), number64(3000n), number64(1500n), number32(1), text('LIST'), number64(9n));

const healthy: [string, Uint8Array][] = [
  ['16 bits mono', riff([chunk('fmt ', formatBody()), chunk('data', sound)])],
  [
    '24 bits stereo with other chunks',
    riff([
      chunk('JUNK', new Uint8Array(28)),
      chunk('fmt ', formatBody({ channels: 2, bits: 24 })),
      chunk('LIST', text('INFOISFT\x03\0\0\0abc')),
      chunk('data', sound),
      chunk('id3 ', text('12345')),
    ]),
  ],
  [
    'float',
    riff([chunk('fmt ', formatBody({ tag: 3, bits: 32 })), chunk('fact', number32(700)), chunk('data', floats)]),
  ],
  ['extensible', riff([chunk('fmt ', extensible), chunk('data', sound)])],
  [
    'RF64',
    riff([chunk('ds64', wide), chunk('fmt ', formatBody()), chunk('data', sound, 0xffffffff)], 0xffffffff, 'RF64'),
  ],
  ['8 bits, sound first', riff([chunk('data', sound), chunk('fmt ', formatBody({ bits: 8 }))])],
];

/** A number below `below`, repeatable. */
type Dice = (below: number) => number;

function dice(seed: number): Dice {
  let n = 0;
  return (below) => Math.floor(uniform(seed, n++) * below);
}

const lies = [
  0, 1, 2, 3, 0x7f, 0x80, 0xff, 0x7fff, 0x8000, 0xffff, 0x7fffffff, 0x80000000, 0xfffffff0, 0xfffffffe, 0xffffffff,
];

/** Ways to harm a file; most of them aim at the first 128 bytes, where the headers are. */
const damages: [string, (bytes: Uint8Array, roll: Dice) => Uint8Array][] = [
  ['cut', (bytes, roll) => bytes.slice(0, roll(roll(2) === 0 ? 128 : bytes.length))],
  ['one bit flipped in the header', (bytes, roll) => flipped(bytes, roll(8 * 64))],
  [
    'some bits flipped anywhere',
    (bytes, roll) => {
      let harmed = bytes;
      for (let k = roll(60) + 1; k > 0; k--) harmed = flipped(harmed, roll(8 * bytes.length));
      return harmed;
    },
  ],
  ['a header field that lies', (bytes, roll) => overwritten(bytes, 2 * roll(48), number32(lies[roll(lies.length)]))],
  [
    'two header fields that lie',
    (bytes, roll) =>
      overwritten(
        overwritten(bytes, 2 * roll(48), number16(lies[roll(10)])),
        2 * roll(48),
        number32(lies[roll(lies.length)]),
      ),
  ],
  [
    'rubbish over a stretch',
    (bytes, roll) =>
      overwritten(
        bytes,
        roll(bytes.length),
        Uint8Array.from({ length: roll(300) }, () => roll(256)),
      ),
  ],
  ['zeros over a stretch', (bytes, roll) => overwritten(bytes, roll(bytes.length), new Uint8Array(roll(2000)))],
  [
    'ones over a stretch of the header',
    (bytes, roll) => overwritten(bytes, roll(100), new Uint8Array(roll(40)).fill(255)),
  ],
  [
    'bytes lost',
    (bytes, roll) => {
      const at = roll(200);
      return joined(bytes.slice(0, at), bytes.slice(at + roll(50)));
    },
  ],
  [
    'bytes put in',
    (bytes, roll) => {
      const at = roll(200);
      return joined(
        bytes.slice(0, at),
        Uint8Array.from({ length: roll(50) }, () => roll(256)),
        bytes.slice(at),
      );
    },
  ],
  ['sound alone', (_, roll) => sound.slice(roll(100))],
  ['doubled', (bytes) => joined(bytes, bytes)],
];

function flipped(bytes: Uint8Array, bit: number): Uint8Array {
  const harmed = bytes.slice();
  if (bit >> 3 < harmed.length) harmed[bit >> 3] ^= 1 << (bit & 7);
  return harmed;
}

function overwritten(bytes: Uint8Array, at: number, by: Uint8Array): Uint8Array {
  const harmed = bytes.slice();
  harmed.set(by.subarray(0, Math.max(0, bytes.length - at)), Math.min(at, bytes.length));
  return harmed;
}

/** Reads it all, as a reader would, and holds every promise against what came. Returns what became of it. */
function outcome(bytes: Uint8Array, label: string): string {
  const source = made.watched(bytes);
  const result = readWav(source);
  expect(source.readBytes, label).toBeLessThan(bytes.length + 100_000);
  if (!result.ok) {
    expect(result.issues.length, label).toBeGreaterThan(0);
    for (const issue of result.issues) {
      expect(issue.code, label).toMatch(
        /^(not-a-wav|empty|no-format|no-data|compressed-format|bad-format|too-large|too-long)$/,
      );
      expect(issue.message.length * (issue.mend?.length ?? 0) * (issue.where?.length ?? 0), label).toBeGreaterThan(0);
    }
    return result.issues[0].code;
  }
  const { recording, notes } = result.value;
  expect(recording.channels, label).toBeGreaterThanOrEqual(1);
  expect(recording.channels, label).toBeLessThanOrEqual(64);
  expect(recording.frames, label).toBeGreaterThanOrEqual(1);
  expect(recording.frames * recording.channels, label).toBeLessThanOrEqual(bytes.length);
  expect(recording.rateHz >= 4000 && recording.rateHz <= 768_000, label).toBe(true);
  expect(recording.bits >= 1 && recording.bits <= 64, label).toBe(true);
  expect(recording.stepSize >= 0 && recording.stepSize <= 1, label).toBe(true);
  const out = new Float64Array(recording.frames + 10);
  for (let channel = 0; channel < recording.channels; channel++) {
    recording.readChannel(channel, -5, recording.frames + 10, out);
    expect(
      out.every((value) => Math.abs(value) <= (recording.floatingPoint ? 4294967296 : 1)),
      label,
    ).toBe(true);
    const rubbish = recording.notFinite(channel, 0, recording.frames);
    expect(rubbish >= 0 && rubbish <= recording.frames, label).toBe(true);
  }
  for (const note of notes) {
    expect(note.message, label).not.toMatch(/NaN|undefined|Infinity/);
    for (const value of Object.values(note.values ?? {})) expect(Number.isFinite(value), label).toBe(true);
  }
  return notes.length > 0 ? 'read with notes' : 'read';
}

describe('damaged files', () => {
  it('are refused or read, never worse, in 1200 seeded cases', () => {
    const outcomes = new Map<string, number>();
    const startedMs = process.cpuUsage().user / 1000;
    for (let seed = 1; seed <= 1200; seed++) {
      const roll = dice(seed);
      const [name, bytes] = healthy[seed % healthy.length];
      const [damage, harm] = damages[Math.floor(seed / healthy.length) % damages.length];
      const end = outcome(harm(bytes, roll), `seed ${seed}: ${name}, ${damage}`);
      outcomes.set(end, (outcomes.get(end) ?? 0) + 1);
    }
    expect(process.cpuUsage().user / 1000 - startedMs).toBeLessThan(20_000);
    // If one of these were missing, the damage would not be testing what it is meant to.
    for (const end of [
      'read',
      'read with notes',
      'not-a-wav',
      'no-data',
      'no-format',
      'bad-format',
      'compressed-format',
    ]) {
      expect(outcomes.get(end) ?? 0, end).toBeGreaterThan(3);
    }
  });

  it.each(healthy)('every single bit of the header of %s may flip', (name, bytes) => {
    for (let bit = 0; bit < 8 * 160; bit++) outcome(flipped(bytes, bit), `${name}, bit ${bit}`);
  });

  it.each(healthy)('no flipped bit in the header of %s changes what is heard without a note', (name, bytes) => {
    const heard = (file: Uint8Array) => {
      const result = readWav(made.watched(file));
      if (!result.ok) return { sound: 'refused', noted: true };
      const { recording, notes } = result.value;
      const out = new Float64Array(recording.frames);
      let sum = 0;
      for (let channel = 0; channel < recording.channels; channel++) {
        recording.readChannel(channel, 0, recording.frames, out);
        for (let i = 0; i < out.length; i++) sum += out[i] * (i + 1) * (channel + 1);
      }
      return { sound: `${recording.rateHz} ${recording.channels} ${recording.frames} ${sum}`, noted: notes.length > 0 };
    };
    const whole = heard(bytes).sound;
    const soundAt = String.fromCharCode(...bytes).indexOf('data') + 8;
    const soundEnd = soundAt + (name === 'float' ? floats.length : sound.length);
    const silent: number[] = [];
    for (let bit = 0; bit < 8 * bytes.length; bit++) {
      if (bit >= 8 * soundAt && bit < 8 * soundEnd) continue;
      const { sound: now, noted } = heard(flipped(bytes, bit));
      if (now !== whole && !noted) silent.push(bit);
    }
    // The one bit between "whole numbers" and "floats" that nothing else in a file of 32-bit samples contradicts.
    expect(silent).toEqual(name === 'float' ? [8 * 20 + 1] : []);
  });

  it.each(healthy)('%s may end anywhere, and then holds that much less', (name, bytes) => {
    let framesBefore = 0;
    for (let length = 0; length < bytes.length; length += 7) {
      const cut = bytes.subarray(0, length);
      const end = outcome(cut, `${name}, ${length} bytes`);
      const result = readWav(made.watched(cut));
      if (!result.ok) continue;
      expect(result.value.recording.frames).toBeGreaterThanOrEqual(framesBefore);
      framesBefore = result.value.recording.frames;
      if (!name.includes('first') && length < 2800) expect(end).toBe('read with notes');
    }
  });

  it('are read without notes and damage alike when nothing is wrong', () => {
    for (const [name, bytes] of healthy) {
      expect(outcome(bytes, name), name).toBe(name.includes('first') ? 'read with notes' : 'read');
    }
  });

  it.each([0, 1, 0x7fffffff, 0xffffffff])('a size of %i costs no more than the file has', (size) => {
    for (const id of ['fmt ', 'data', 'LIST', 'ds64', 'fact', 'bext']) {
      for (const kind of ['RIFF', 'RF64', 'RIFX', 'BW64']) {
        outcome(
          riff([chunk(id, new Uint8Array(40), size), chunk('fmt ', formatBody()), chunk('data', sound)], size, kind),
          `${id} ${kind} ${size}`,
        );
        outcome(riff([chunk('fmt ', formatBody()), chunk(id, sound, size)], size, kind), `${id} ${kind} ${size} last`);
      }
    }
  });

  it('64-bit sizes up to the largest cost no more than the file has', () => {
    for (const size of [0n, 1n, (1n << 32n) - 1n, 1n << 53n, 1n << 63n, (1n << 64n) - 1n]) {
      for (const entries of [0, 1, 0xffffffff]) {
        const body = joined(
          number64(size),
          number64(size),
          number64(size),
          number32(entries),
          text('LIST'),
          number64(size),
        );
        const bytes = riff(
          [
            chunk('ds64', body),
            chunk('LIST', text('INFO'), 0xffffffff),
            chunk('fmt ', formatBody()),
            chunk('data', sound, 0xffffffff),
          ],
          0xffffffff,
          'RF64',
        );
        outcome(bytes, `size ${size}, ${entries} entries`);
      }
    }
  });
});

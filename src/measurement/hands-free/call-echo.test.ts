import { describe, expect, test } from 'vitest';
import { gauss, uniform } from '../../base/random.ts';
import { recordingFromArrays } from '../../signals/recording.ts';
import { callEcho } from './call-echo.ts';

const RATE_HZ = 16_000;
const SECONDS = 20;

/** Loudness of somebody who speaks in syllables with pauses between sentences, 0 .. 1. */
function syllables(seed: number, share = 1): Float64Array {
  const out = new Float64Array(SECONDS * RATE_HZ);
  let at = RATE_HZ / 2;
  for (let n = 0; at < out.length; n++) {
    const length = Math.round(RATE_HZ * (0.1 + 0.25 * uniform(seed, 3 * n)));
    const loud = uniform(seed, 3 * n + 1) < share ? 0.3 + 0.7 * uniform(seed, 3 * n + 1) : 0;
    for (let i = 0; i < length && at + i < out.length; i++) out[at + i] = loud * Math.sin((Math.PI * i) / length);
    at += length + Math.round(RATE_HZ * (uniform(seed, 3 * n + 2) < 0.15 ? 0.8 : 0.03));
  }
  return out;
}

/** Speech-like noise of an envelope; another seed is another voice with the same rhythm, as a speech coder makes it. */
const voice = (envelope: Float64Array, seed: number): Float64Array => envelope.map((e, n) => 0.2 * e * gauss(seed, n));
const sentEnvelope = syllables(1);
const sent = voice(sentEnvelope, 2);

interface Line {
  delayMs?: number;
  lossDb?: number;
  noiseDb?: number;
  /** Somebody who speaks in the car. */
  talker?: Float64Array;
}

function received({ delayMs = 0, lossDb = Number.POSITIVE_INFINITY, noiseDb = -80, talker }: Line): Float64Array {
  const echo = voice(sentEnvelope, 7);
  const delay = Math.round((delayMs * RATE_HZ) / 1000);
  const gain = 10 ** (-lossDb / 20);
  return sent.map((_, n) => gain * (echo[n - delay] ?? 0) + 10 ** (noiseDb / 20) * gauss(9, n) + (talker?.[n] ?? 0));
}

const heard = (line: Line, gainDb = 0) =>
  callEcho(
    { recording: recordingFromArrays([sent], RATE_HZ), input: 0 },
    { recording: recordingFromArrays([received(line)], RATE_HZ), input: 0 },
    gainDb,
  );

describe('what the far end of a call hears of itself', () => {
  test.each([
    [120, 20],
    [340, 34],
    [900, 28],
    [0, 12],
  ])('an echo %d ms late and %d dB down is found, though its wave is another', (delayMs, lossDb) => {
    const echo = heard({ delayMs, lossDb });
    expect(echo.status).toBe('echo');
    expect(Math.abs((echo.delayMs ?? 0) - delayMs)).toBeLessThanOrEqual(10);
    expect(Math.abs((echo.lossDb ?? 0) - lossDb)).toBeLessThan(3);
  });

  test('an echo is found while somebody speaks in the car now and then', () => {
    const talker = voice(syllables(30, 0.3), 31).map((x) => 0.5 * x);
    const echo = heard({ delayMs: 250, lossDb: 12, talker });
    expect(echo.status).toBe('echo');
    expect(Math.abs((echo.delayMs ?? 0) - 250)).toBeLessThanOrEqual(10);
  });

  test('one far enough down is as good as none, and quiet with nothing in it is none', () => {
    expect(heard({ delayMs: 300, lossDb: 52, noiseDb: -90 }).status).toBe('no-echo');
    const none = heard({ noiseDb: -85 });
    expect(none).toMatchObject({ status: 'no-echo', delayMs: null });
    expect(none.lossDb ?? 0).toBeGreaterThan(46);
  });

  test('noise or another talker that could hide one: cannot say', () => {
    expect(heard({ noiseDb: -45 }).status).toBe('cannot-say');
    expect(heard({ talker: voice(syllables(40), 41) }).status).toBe('cannot-say');
  });

  test('a difference of gains is taken out', () => {
    const [plain, amplified] = [heard({ delayMs: 200, lossDb: 30 }), heard({ delayMs: 200, lossDb: 30 }, 10)];
    expect((amplified.lossDb ?? 0) - (plain.lossDb ?? 0)).toBeCloseTo(10, 6);
  });

  test('too few words, and a dead line: cannot say', () => {
    const short = recordingFromArrays([sent.subarray(0, 3 * RATE_HZ)], RATE_HZ);
    expect(callEcho({ recording: short, input: 0 }, { recording: short, input: 0 }).status).toBe('cannot-say');
    const dead = recordingFromArrays([new Float64Array(sent.length)], RATE_HZ);
    const talk = recordingFromArrays([sent], RATE_HZ);
    expect(callEcho({ recording: talk, input: 0 }, { recording: dead, input: 0 }).says).toContain('nothing at all');
    expect(callEcho({ recording: dead, input: 0 }, { recording: talk, input: 0 }).status).toBe('cannot-say');
  });
});

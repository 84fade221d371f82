import { describe, expect, test } from 'vitest';
import { gauss } from '../../base/random.ts';
import { recordingFromArrays } from '../../signals/recording.ts';
import { trackAudio } from '../../signals/track-audio.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import { factorySource, type SourceTake } from './factory-source.ts';
import { outputResponses } from './output-response.ts';

const RATE_HZ = 48_000;
const designed = designTrack({ kind: 'sweep', rateHz: RATE_HZ, stimulusS: 2, levelDbfs: -12 });
if (!designed.ok) throw new Error(designed.issues[0].message);
const track = designed.value;
const audio = trackAudio(track);
const [played] = audio.renderBlock(0, audio.frames);

type Section = [b0: number, b1: number, b2: number, a1: number, a2: number];

/** Second-order sections after the cookbook formulas of R. Bristow-Johnson, written down here once more. */
function section(kind: 'peak' | 'high-pass' | 'all-pass', fHz: number, q: number, gainDb = 0): Section {
  const w = (2 * Math.PI * fHz) / RATE_HZ;
  const alpha = Math.sin(w) / (2 * q);
  const c = Math.cos(w);
  const a = 10 ** (gainDb / 40);
  const [b, den] = {
    peak: [
      [1 + alpha * a, -2 * c, 1 - alpha * a],
      [1 + alpha / a, -2 * c, 1 - alpha / a],
    ],
    'high-pass': [
      [(1 + c) / 2, -(1 + c), (1 + c) / 2],
      [1 + alpha, -2 * c, 1 - alpha],
    ],
    'all-pass': [
      [1 - alpha, -2 * c, 1 + alpha],
      [1 + alpha, -2 * c, 1 - alpha],
    ],
  }[kind];
  return [b[0] / den[0], b[1] / den[0], b[2] / den[0], den[1] / den[0], den[2] / den[0]];
}

/** First-order all-pass: 90 degrees at `fHz`. */
function turning(fHz: number): Section {
  const t = Math.tan((Math.PI * fHz) / RATE_HZ);
  const c = (t - 1) / (t + 1);
  return [c, 1, 0, c, 0];
}

function through(signal: Float64Array, sections: Section[]): Float64Array {
  return sections.reduce((input, [b0, b1, b2, a1, a2]) => {
    const out = new Float64Array(input.length);
    for (let n = 0; n < input.length; n++) {
      out[n] =
        b0 * input[n] +
        b1 * (input[n - 1] ?? 0) +
        b2 * (input[n - 2] ?? 0) -
        a1 * (out[n - 1] ?? 0) -
        a2 * (out[n - 2] ?? 0);
    }
    return out;
  }, signal);
}

interface Wire {
  sections?: Section[];
  delay?: number;
  gain?: number;
}

/** The outputs as a recorder with one input for each hears them, at 70 dB over its noise. */
function recorded(wires: Wire[], seed = 1) {
  const before = 9000;
  return recordingFromArrays(
    wires.map(({ sections = [], delay = 0, gain = 0.5 }, input) => {
      const out = new Float64Array(before + played.length + 20_000);
      const noise = (n: number): number => 5e-5 * gauss(seed + 10 * input, n);
      const wave = through(played, sections);
      for (let n = 0; n < out.length; n++) out[n] = noise(n) + gain * (wave[n - before - delay] ?? 0);
      return out;
    }),
    RATE_HZ,
    2 ** -23,
  );
}

function takesOf(take: string, step: number, names: string[], wires: Wire[]): SourceTake[] {
  const responses = outputResponses(
    recorded(wires, step),
    track,
    names.map((_, i) => i),
  );
  return names.map((output, i) => ({ take, output, step, response: responses[i] }));
}
const source = (...takes: SourceTake[][]) => factorySource(takes.flat());
const what = ({ findings }: ReturnType<typeof source>) => findings.map((finding) => finding.what);

describe('a factory source', () => {
  test('that is flat and in step at two volumes is clean', () => {
    const names = ['left', 'right'];
    const answer = source(
      takesOf('a', 10, names, [{ gain: 0.1 }, { gain: 0.1 }]),
      takesOf('b', 20, names, [{ gain: 0.4 }, { gain: 0.4 }]),
    );
    expect(answer.findings).toEqual([]);
    expect(answer.verdict).toBe('clean');
    const [left] = answer.outputs;
    expect(left.steps.map(({ levelDb }) => Math.round(levelDb ?? 0))).toEqual([-20, -8]);
    expect(left.delayMs).toBeCloseTo(0, 3);
    expect(left.phase).toMatchObject({ sign: 1, allPass: null });
  }, 60_000);

  test('with a shape of its own says where and how much', () => {
    const answer = source(takesOf('a', 10, ['left'], [{ sections: [section('peak', 3150, 1, 6)] }]));
    expect(what(answer)).toEqual(['equalizer']);
    const [{ shape, delayMs }] = answer.outputs;
    const most = Math.max(...shape.levelDb);
    expect(most).toBeGreaterThan(5.3);
    expect(most).toBeLessThan(6.2);
    expect(shape.fHz[shape.levelDb.indexOf(most)]).toBeCloseTo(3162, -1);
    expect(answer.verdict).toBe('to-undo');
    // It was recorded alone, so nothing is known of its delay.
    expect(delayMs).toBeNull();
  }, 60_000);

  test('whose bass is cut off cannot be undone', () => {
    const steep = [section('high-pass', 90, 0.541), section('high-pass', 90, 1.307)];
    const answer = source(takesOf('a', 10, ['left'], [{ sections: steep }]));
    expect(what(answer)).toEqual(['high-pass']);
    // Butterworth of fourth order: 6 dB down where (90 / f)^8 = 3.
    expect(answer.outputs[0].lowHz ?? 0).toBeGreaterThan(72);
    expect(answer.outputs[0].lowHz ?? 0).toBeLessThan(86);
    expect(answer.verdict).toBe('not-to-undo');
  }, 60_000);

  test('that takes bass away as it is turned up is told, with the steps', () => {
    const loud = takesOf('b', 30, ['left'], [{ sections: [section('peak', 60, 0.7, -8)], gain: 0.8 }]);
    const answer = source(takesOf('a', 10, ['left'], [{ gain: 0.1 }]), loud);
    expect(what(answer)).toEqual(['loudness']);
    expect(answer.findings[0].says).toMatch(/^left: -[78](\.\d)? dB at (50|63)(\.\d)? Hz between step 10 and 30/);
  }, 60_000);

  test('with an all-pass and a delay in one output: both are named, and so is what the sum loses', () => {
    const wires = [{}, { sections: [section('all-pass', 500, 0.7)], delay: 24 }];
    const answer = source(takesOf('a', 10, ['left', 'right'], wires));
    const [left, right] = answer.outputs;
    expect(left.phase?.allPass).toBeNull();
    expect(right.phase?.allPass?.order).toBe(2);
    expect(Math.abs(Math.log2((right.phase?.allPass?.fHz ?? 1) / 500))).toBeLessThan(0.1);
    expect(right.delayMs).toBeCloseTo(0.5, 1);
    expect(what(answer)).toEqual(['phase', 'delay', 'sum']);
  }, 60_000);

  test('one of whose outputs is turned over', () => {
    const answer = source(takesOf('a', 10, ['left', 'right'], [{}, { gain: -0.5 }]));
    expect(answer.outputs.map(({ phase }) => phase?.sign)).toEqual([1, -1]);
    expect(what(answer)).toEqual(['polarity', 'sum']);
  }, 60_000);

  test('an all-pass of first order is told from one of second', () => {
    const answer = source(takesOf('a', 10, ['left'], [{ sections: [turning(300)] }]));
    expect(answer.outputs[0].phase?.allPass).toMatchObject({ order: 1, q: null });
    expect(Math.abs(Math.log2((answer.outputs[0].phase?.allPass?.fHz ?? 1) / 300))).toBeLessThan(0.1);
  }, 60_000);

  test('an output that gives nothing cannot be read, and says why', () => {
    const answer = source(takesOf('a', 10, ['left', 'dead'], [{}, { gain: 0 }]));
    expect(what(answer)).toEqual(['unread']);
    expect(answer.outputs[1].steps[0].levelDb).toBeNull();
    expect(source(takesOf('a', 10, ['dead'], [{ gain: 0 }])).verdict).toBe('cannot-say');
  }, 60_000);
});

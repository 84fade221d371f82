import { describe, expect, test } from 'vitest';
import { trackSchema } from '../signals/track.ts';
import { carFromSeed } from './car-from-seed.ts';
import * as faults from './faults.ts';
import { renderTake } from './render-take.ts';
import type { TakeRequest } from './take-request.ts';

// A low rate and a short track keep forty renderings quick.
const RATE_HZ = 16_000;
const marker = (startS: number) => ({
  kind: 'marker',
  side: 'right',
  startS,
  durationS: 0.08,
  fromHz: 3000,
  toHz: 7000,
  levelDbfs: -18,
});
const trackWith = (code: number, secondMarkerS = 2.5) =>
  trackSchema.parse({
    schema: 'kickpanel.track/1',
    kind: 'sweep',
    rateHz: RATE_HZ,
    channels: 2,
    durationS: 3,
    code,
    segments: [
      { kind: 'silence', startS: 0, durationS: 0.3 },
      marker(0.3),
      {
        kind: 'sweep',
        side: 'left',
        startS: 0.8,
        durationS: 1.2,
        fromHz: 40,
        toHz: 7000,
        levelDbfs: -12,
        fadeInS: 0.03,
        fadeOutS: 0.01,
      },
      marker(secondMarkerS),
    ],
  });

const world: TakeRequest = {
  track: trackWith(1),
  car: carFromSeed(3),
  on: ['door-left', 'tweeter-right'],
  recorder: { rateHz: RATE_HZ, startS: 0.6, driftPpm: 30 },
  seed: 4,
  fHz: [200],
};
const sound = renderTake(world);
const samplesOf = (faulty: faults.FaultyWorld): Float64Array => renderTake(faulty.world).samples[0];
const peakOf = (signal: Float64Array): number => signal.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
const powerDb = (signal: Float64Array): number =>
  10 * Math.log10(signal.reduce((total, value) => total + value * value, 0) / signal.length + 1e-30);
const same = (one: Float64Array, other: Float64Array): boolean =>
  one.length === other.length && one.every((value, n) => value === other[n]);
const at = (timeS: number): number => Math.round(timeS * RATE_HZ);

const everyFault: Record<string, () => faults.FaultyWorld> = {
  ...Object.fromEntries(Object.entries(faults.recordingFaults).map(([name, plant]) => [name, () => plant(world)])),
  wrongTrack: () => faults.wrongTrack(world, trackWith(2, 2.52)),
  reversedDriver: () => faults.reversedDriver(world, 'door-left'),
  sidesSwapped: () => faults.sidesSwapped(world),
  sidesMixed: () => faults.sidesMixed(world),
  mutedPlace: () => faults.mutedPlace(world, 'door-left'),
  leadsSwapped: () => faults.leadsSwapped(world, 'door-left', 'mid-left'),
  hiddenAllPass: () => faults.hiddenAllPass(world, 'door-left', 400),
  drivenHard: () => faults.drivenHard(world),
  amplifierClips: () => faults.amplifierClips(world, 'door-left'),
  sourceClips: () => faults.sourceClips(world),
  looseTrim: () => faults.looseTrim(world, 'door-left'),
};

describe('every fault', () => {
  test.each(Object.entries(everyFault))('%s changes the take and not the world it was given', (_, plant) => {
    const before = structuredClone(world);
    const { world: changed, truth } = plant();
    expect(world).toEqual(before);
    const take = renderTake(changed);
    expect(take.rateHz !== sound.rateHz || !same(take.samples[0], sound.samples[0])).toBe(true);
    expect(take.samples[0].every(Number.isFinite)).toBe(true);
    expect(truth.name).not.toBe('');
  });
});

describe('a recorder fault leaves its mark', () => {
  test('digital clipping stands at full scale in runs', () => {
    const samples = samplesOf(faults.clippedDigital(world));
    const top = 1 - 2 ** -23;
    let runs = 0;
    for (let n = 2; n < samples.length; n++) {
      if (samples[n] === top && samples[n - 1] === top && samples[n - 2] === top) runs++;
    }
    expect(runs).toBeGreaterThan(20);
  });

  test('analogue clipping is flat 8 dB under the old peak, and below full scale', () => {
    const peak = peakOf(samplesOf(faults.clippedAnalogue(world, 8)));
    expect(20 * Math.log10(peak / peakOf(sound.samples[0]))).toBeCloseTo(-8, 1);
  });

  test('automatic gain lets the last marker come out of line with the first', () => {
    const samples = samplesOf(faults.automaticGain(world));
    const markerDb = (signal: Float64Array, startS: number) =>
      powerDb(signal.subarray(at(0.6 + startS), at(0.6 + startS + 0.09)));
    const change = markerDb(samples, 2.5) - markerDb(samples, 0.3);
    expect(Math.abs(markerDb(sound.samples[0], 2.5) - markerDb(sound.samples[0], 0.3))).toBeLessThan(0.3);
    expect(Math.abs(change)).toBeGreaterThan(0.7);
  });

  test('a gate leaves exact silence before the track', () => {
    expect(
      samplesOf(faults.gated(world))
        .subarray(0, at(0.5))
        .every((value) => value === 0),
    ).toBe(true);
  });

  test('an offset moves the mean by as much', () => {
    const samples = samplesOf(faults.offset(world, 0.03));
    expect(samples.reduce((total, value) => total + value, 0) / samples.length).toBeCloseTo(0.03, 3);
  });
});

describe('a file fault leaves its mark', () => {
  test('lost and doubled samples change the length by their number', () => {
    expect(samplesOf(faults.lostSamples(world, 512)).length).toBe(sound.samples[0].length - 512);
    expect(samplesOf(faults.doubledSamples(world, 512)).length).toBe(sound.samples[0].length + 512);
  });

  test('an emptied buffer is exact zeros with sound on both sides, where the truth says', () => {
    const faulty = faults.zeroFilled(world, 0.02);
    const samples = samplesOf(faulty);
    const from = at(faulty.truth.detail.atS as number);
    expect(samples.subarray(from, from + 319).every((value) => value === 0)).toBe(true);
    expect(peakOf(samples.subarray(from - 160, from))).toBeGreaterThan(0.001);
    expect(peakOf(samples.subarray(from + 321, from + 480))).toBeGreaterThan(0.001);
  });

  test('a header that lies does so in the label only', () => {
    const take = renderTake(faults.wrongHeaderRate(world).world);
    expect(take.rateHz).toBe(48_000);
    expect(same(take.samples[0], sound.samples[0])).toBe(true);
  });

  test('a cut end lacks the last marker, a cut start the first', () => {
    expect(samplesOf(faults.truncatedEnd(world)).length).toBeLessThan(at(0.6 + 2.2));
    expect(samplesOf(faults.truncatedStart(world)).length).toBeLessThan(sound.samples[0].length - at(1.3));
  });
});

describe('a noise fault leaves its mark', () => {
  test('the noise after the stimulus is louder than before', () => {
    const samples = samplesOf(faults.noiseChanges(world, 12));
    const change = powerDb(samples.subarray(-at(0.3))) - powerDb(samples.subarray(0, at(0.5)));
    expect(change).toBeGreaterThan(8);
  });

  test('nothing but noise is left when nothing plays', () => {
    const take = renderTake(faults.silence(world).world);
    expect(take.truth.anchor).toBeNull();
    expect(powerDb(take.samples[0])).toBeCloseTo(-76, 0);
  });
});

describe('a car fault leaves its mark', () => {
  test('a reversed driver turns its own sound over, and the truth with it', () => {
    const quiet: TakeRequest = {
      ...world,
      on: ['door-left'],
      recorder: { rateHz: RATE_HZ, bits: 32, noise: { levelDb: -300, character: 'white', lines: [] } },
    };
    const right = renderTake(quiet).samples[0];
    const take = renderTake(faults.reversedDriver(quiet, 'door-left').world);
    expect(take.truth.stimuli[0].polaritySign).toBe(-1);
    expect(take.samples[0].every((value, n) => Math.abs(value + right[n]) < 1e-8)).toBe(true);
  });

  test('swapped sides give the stimulus to the anchor and the markers to the driver on test', () => {
    const { truth } = renderTake(faults.sidesSwapped(world).world);
    expect(truth.anchor).toBe('door-left');
    expect(truth.stimuli[0].places).toEqual(['tweeter-right']);
  });

  test('swapped leads let the other driver answer with this channel', () => {
    const { truth } = renderTake(faults.leadsSwapped(world, 'door-left', 'mid-left').world);
    expect(truth.stimuli[0].places).toEqual(['mid-left']);
    expect(truth.stimuli[0].crossover).toEqual(sound.truth.stimuli[0].crossover);
  });

  test('a hidden all-pass turns the phase and leaves the level', () => {
    const fHz = [400, 1200];
    const plain = renderTake({ ...world, fHz }).truth.stimuli[0].response;
    const turned = renderTake(faults.hiddenAllPass({ ...world, fHz }, 'door-left', 400).world).truth.stimuli[0]
      .response;
    expect(turned.levelDb[0]).toBeCloseTo(plain.levelDb[0], 9);
    expect(Math.abs(Math.abs(turned.phaseDeg[0] - plain.phaseDeg[0]) - 180)).toBeLessThan(1e-6);
  });

  test('loose trim buzzes while the sweep passes, and not below its level', () => {
    const loud = samplesOf(faults.looseTrim(world, 'door-left', 110, -20));
    expect(same(loud, sound.samples[0])).toBe(false);
    expect(same(samplesOf(faults.looseTrim(world, 'door-left', 110, 0)), sound.samples[0])).toBe(true);
  });

  test('draws are repeatable and differ by world', () => {
    const first = faults.lostSamples(world).truth.detail.atS;
    expect(faults.lostSamples(world).truth.detail.atS).toBe(first);
    expect(faults.lostSamples({ ...world, seed: 5 }).truth.detail.atS).not.toBe(first);
  });
});

import { describe, expect, test } from 'vitest';
import { nearCar } from './near-car.ts';
import { nearImpulses, pistonDistanceM, sourcesOf, spotBefore } from './near-impulse.ts';
import { nearWalk } from './render-near-takes.ts';
import { feedsOf, plantedFaults } from './wiring-faults.ts';

const seeds = Array.from({ length: 40 }, (_, seed) => seed);

describe('wiring faults of a simulated car', () => {
  const near = nearCar(2);
  const places = near.places.map(({ output }) => output.place);
  const fedBy = (...faults: string[]) =>
    Object.fromEntries(
      feedsOf(near, faults).map(({ place, output, left, right }) => [
        place,
        output ? [output.id, left, right] : 'silent',
      ]),
    );

  test('change nothing where there are none', () => {
    expect(places).toEqual(['front left tweeter', 'front right tweeter', 'front left door', 'front right door', 'sub']);
    expect(fedBy()).toEqual({
      'front left tweeter': ['out1', 1, 0],
      'front right tweeter': ['out2', 0, 1],
      'front left door': ['out3', 1, 0],
      'front right door': ['out4', 0, 1],
      sub: ['out5', 0.5, 0.5],
    });
  });

  test('send each signal where leads, inputs and settings put it', () => {
    expect(fedBy('swap:signal:amp1+amp4')).toMatchObject({
      'front left tweeter': ['out4', 0, 1],
      'front right door': ['out1', 1, 0],
    });
    // The lead of channel 1 sits on 3, that of 3 on 5, that of 5 on 1.
    expect(fedBy('cycle:signal:amp1>amp3>amp5')).toMatchObject({
      'front left door': ['out1', 1, 0],
      sub: ['out3', 1, 0],
      'front left tweeter': ['out5', 0.5, 0.5],
    });
    expect(fedBy('swap:input:in1+in2')).toMatchObject({
      'front left tweeter': ['out1', 0, 1],
      sub: ['out5', 0.5, 0.5],
    });
    expect(fedBy('open:input:in1')).toMatchObject({ 'front left tweeter': ['out1', 0, 0], sub: ['out5', 0, 0.5] });
    expect(fedBy('reversed:input:in2').sub).toEqual(['out5', 0.5, -0.5]);
    expect(fedBy('mute:out5').sub).toBe('silent');
    expect(fedBy('invert:out3', 'reversed:speaker:front left door')).toMatchObject({
      'front left door': ['out3', 1, 0],
    });
  });

  test('follow the leads when two layers are exchanged: what is open stays with its lead', () => {
    expect(fedBy('swap:speaker:front left tweeter+front left door', 'open:signal:amp1')).toMatchObject({
      'front left door': 'silent',
      'front left tweeter': ['out3', 1, 0],
    });
  });

  test('are planted as many as asked for, the same for the same seed, none twice', () => {
    for (const seed of seeds) {
      for (const count of [0, 1, 2, 3]) {
        const faults = plantedFaults(nearCar(seed), count, seed);
        expect(faults).toHaveLength(count);
        expect(new Set(faults).size).toBe(count);
        expect(plantedFaults(nearCar(seed), count, seed)).toEqual(faults);
        // Every one of them does something.
        const effect = (list: string[]) => JSON.stringify(feedsOf(nearCar(seed), list));
        for (const fault of faults) expect(effect(faults.filter((f) => f !== fault))).not.toBe(effect(faults));
      }
    }
    expect(() => plantedFaults(near, 4, 2)).toThrow('0..3');
  });
});

describe('sound close to a driver', () => {
  test('is that of a point far away, and no louder than the cone allows close by', () => {
    // A cone of 10 cm radius: at 2 m it is a point, at the cone itself pressure ends at rho a r0.
    expect(pistonDistanceM(2, Math.PI * 0.01)).toBeCloseTo(2.0012, 3);
    expect(pistonDistanceM(0, Math.PI * 0.01)).toBeCloseTo(0.05, 6);
    expect(pistonDistanceM(0.04, 6e-4)).toBeCloseTo(0.0412, 3);
  });

  test('is the driver’s own in its band: the side that feeds it stands 10 dB and more over the other', () => {
    const rateHz = 32_000;
    const walk = nearWalk(4, 0);
    const sources = sourcesOf(walk.near, walk.feeds, rateHz);
    const energyAt = (response: Float64Array, fHz: number): number => {
      let re = 0;
      let im = 0;
      for (let n = 0; n < response.length; n++) {
        re += response[n] * Math.cos((2 * Math.PI * fHz * n) / rateHz);
        im += response[n] * Math.sin((2 * Math.PI * fHz * n) / rateHz);
      }
      return re * re + im * im;
    };
    for (const [place, middleHz] of [
      ['front left tweeter', 7000],
      ['front left mid', 1000],
      ['front left door', 170],
    ] as const) {
      const spot = { ...spotBefore(walk.near, place, 0.04), place };
      const { left, right } = nearImpulses(walk.near, sources, spot, rateHz);
      const around = Array.from({ length: 9 }, (_, k) => middleHz * 2 ** ((k - 4) / 12));
      const sum = (response: Float64Array) => around.reduce((all, fHz) => all + energyAt(response, fHz), 0);
      expect(10 * Math.log10(sum(left) / sum(right)), place).toBeGreaterThan(10);
    }
  });
});

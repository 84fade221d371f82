import { describe, expect, test } from 'vitest';
import { driverOfKind } from './car-drivers.ts';
import { chanceFrom } from './chance.ts';
import { magnitude } from './complex.ts';
import { coneAcceleration } from './cone-motion.ts';
import { driverResponse, LINEAR_STROKE, pascalPerAcceleration, type SimulatedDriver, strokePerVolt } from './driver.ts';

const RATE_HZ = 96_000;
const door = driverOfKind('midbass', chanceFrom(1), chanceFrom(2));
const linearDoor: SimulatedDriver = { ...door, stroke: LINEAR_STROKE, breakupHz: 26_000, bumps: [] };

const tone = (volts: number, fHz: number, seconds: number): Float64Array =>
  Float64Array.from(
    { length: Math.round(seconds * RATE_HZ) },
    (_, n) => volts * Math.sin((2 * Math.PI * fHz * n) / RATE_HZ),
  );

/** Sine and cosine shares over whole periods at the end. */
function harmonic(signal: ArrayLike<number>, rateHz: number, fHz: number, seconds: number): number {
  const count = Math.round(seconds * rateHz);
  let re = 0;
  let im = 0;
  for (let n = signal.length - count; n < signal.length; n++) {
    re += signal[n] * Math.cos((2 * Math.PI * fHz * n) / rateHz);
    im += signal[n] * Math.sin((2 * Math.PI * fHz * n) / rateHz);
  }
  return (2 * Math.hypot(re, im)) / count;
}

/** The same driver by the classical Runge-Kutta method at many times the rate: another method, another program. */
function byRungeKutta(
  driver: SimulatedDriver,
  volts: number,
  fHz: number,
  seconds: number,
  rateHz: number,
): Float64Array {
  const { stroke, xMaxM } = driver;
  const slope = (t: number, [flux, v, x]: number[]): number[] => {
    const xi = x / xMaxM;
    const bl = (driver.bl * (1 + stroke.blTilt * xi)) / (1 + stroke.blFall2 * xi ** 2 + stroke.blFall4 * xi ** 4);
    const k = driver.stiffnessNPerM * (1 + stroke.kTilt * xi + stroke.kRise2 * xi ** 2 + stroke.kRise4 * xi ** 4);
    const le = driver.inductanceH * (1 + (stroke.leTilt * xi) / Math.sqrt(1 + xi ** 2));
    const leSlope = (driver.inductanceH * stroke.leTilt) / (xMaxM * (1 + xi ** 2) ** 1.5);
    const i = flux / le;
    const a = (bl * i + 0.5 * i * i * leSlope - driver.lossKgPerS * v - k * x) / driver.massKg;
    return [volts * Math.sin(2 * Math.PI * fHz * t) - driver.resistanceOhm * i - bl * v, a, v];
  };
  const moved = (state: number[], rate: number[], h: number) => state.map((value, k) => value + h * rate[k]);
  let state = [0, 0, 0];
  const out = new Float64Array(Math.round(seconds * rateHz));
  const h = 1 / rateHz;
  for (let n = 0; n < out.length; n++) {
    const t = n * h;
    out[n] = slope(t, state)[1];
    const k1 = slope(t, state);
    const k2 = slope(t + h / 2, moved(state, k1, h / 2));
    const k3 = slope(t + h / 2, moved(state, k2, h / 2));
    const k4 = slope(t + h, moved(state, k3, h));
    state = state.map((value, k) => value + (h / 6) * (k1[k] + 2 * k2[k] + 2 * k3[k] + k4[k]));
  }
  return out;
}

test('a small signal moves the cone as the formula says', () => {
  for (const fHz of [30, 60, 200, 1000, 4000]) {
    const moved = coneAcceleration(linearDoor, tone(1, fHz, 0.8), RATE_HZ);
    const pressure = harmonic(moved, RATE_HZ, fHz, 0.2) * pascalPerAcceleration(linearDoor);
    const radiation = magnitude(driverResponse({ ...linearDoor, breakupHz: 45_000 }, fHz, RATE_HZ));
    expect(20 * Math.log10(pressure / radiation)).toBeCloseTo(0, 1);
  }
});

test('stroke below resonance is bl cms / re per volt, above it falls by 12 dB per octave', () => {
  const { bl, stiffnessNPerM, resistanceOhm } = linearDoor;
  expect(strokePerVolt(linearDoor, 3) / (bl / (stiffnessNPerM * resistanceOhm))).toBeCloseTo(1, 1);
  const octave =
    strokePerVolt({ ...linearDoor, inductanceH: 1e-9 }, 1600) /
    strokePerVolt({ ...linearDoor, inductanceH: 1e-9 }, 800);
  expect(20 * Math.log10(octave)).toBeCloseTo(-12.04, 1);
});

describe('a large signal', () => {
  const volts = 12;
  const fHz = 50;
  const solved = coneAcceleration(door, tone(volts, fHz, 0.8), RATE_HZ);
  const reference = byRungeKutta(door, volts, fHz, 0.8, 384_000);

  test('gives the harmonics that an independent Runge-Kutta solution gives', () => {
    for (const order of [1, 2, 3, 4, 5]) {
      const ours = harmonic(solved, RATE_HZ, order * fHz, 0.2);
      const theirs = harmonic(reference, 384_000, order * fHz, 0.2);
      expect(20 * Math.log10(ours / theirs)).toBeCloseTo(0, 1);
    }
  });

  test('distorts more than a small one, second order as the level, third as its square', () => {
    const share = (level: number, order: number): number => {
      const moved = coneAcceleration(door, tone(level, fHz, 0.8), RATE_HZ);
      return harmonic(moved, RATE_HZ, order * fHz, 0.2) / harmonic(moved, RATE_HZ, fHz, 0.2);
    };
    expect(20 * Math.log10(share(0.4, 2) / share(0.2, 2))).toBeCloseTo(6.02, 1);
    expect(20 * Math.log10(share(0.4, 3) / share(0.2, 3))).toBeCloseTo(12.04, 1);
  });
});

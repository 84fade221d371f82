// From a sample in the file to pressure at the microphone: one place, in small steps, as impulse response and as formula.
import { cabinImpulse, cabinResponse, chained, DIRECT_INDEX } from './cabin.ts';
import type { SimulatedCar, SimulatedPlace } from './car.ts';
import { type Complex, product, scaled } from './complex.ts';
import { coneAcceleration } from './cone-motion.ts';
import { crossoverSections } from './crossover.ts';
import { driverResponse, LINEAR_STROKE, pascalPerAcceleration, radiationSections } from './driver.ts';
import { doubledRate, halvedRate, rateChangeResponse } from './interpolation.ts';
import { allPass2, filtered, highPass2, peaking2, type Section, sectionsResponse } from './sections.ts';

/** Pressure that just fills the recorder at gain 0 dB, Pa peak (126 dB re 20 uPa if it were an rms value). */
export const FULL_SCALE_PA = 40;

/** The microphone's own lower end, second order. */
const MICROPHONE_LOW_HZ = 10;

/** Doublings of the track's rate at which drivers are solved: at least one, and until 80 kHz are passed. */
function doublings(rateHz: number): number {
  return Math.max(1, Math.ceil(Math.log2(80_000 / rateHz)));
}

const solverRateHz = (rateHz: number): number => rateHz * 2 ** doublings(rateHz);

function repeated(change: (signal: Float64Array) => Float64Array, times: number, signal: Float64Array): Float64Array {
  let changed = signal;
  for (let k = 0; k < times; k++) changed = change(changed);
  return changed;
}

/** What going up to the solver's rate and back down does to one frequency. */
function solverRateResponse(fHz: number, rateHz: number): number {
  let gain = 1;
  for (let k = 0; k < doublings(rateHz); k++) gain *= rateChangeResponse(fHz, rateHz * 2 ** k);
  return gain;
}

function channelSections(place: SimulatedPlace, rateHz: number): Section[] {
  return [
    ...crossoverSections(place.crossover, rateHz),
    ...place.hidden.map(({ kind, fHz, q, gainDb }) =>
      kind === 'all-pass' ? allPass2(fHz, q, rateHz) : peaking2(fHz, q, gainDb, rateHz),
    ),
  ];
}

function voltsGain(car: SimulatedCar, place: SimulatedPlace): number {
  return place.voltsPerFullScale * place.wiringSign * place.processorSign * 10 ** (car.volumeDb / 20);
}

function microphoneSections(rateHz: number): Section[] {
  return [highPass2(MICROPHONE_LOW_HZ, Math.SQRT1_2, rateHz)];
}

/** Sample at which the impulse of `placeImpulse` entered the filters; room for the interpolation filters before it. */
const LEAD = 128;

/**
 * What the place's driver radiates at 1 m, re recorded full scale, when `drive` (the mix of both inputs, played full
 * scale = 1, at `rateHz`) goes into its channel. Solved at 80 kHz or more.
 *
 * @param linear  stroke laws and clipping switched off
 */
export function radiated(
  car: SimulatedCar,
  place: SimulatedPlace,
  drive: Float64Array,
  rateHz: number,
  linear: boolean,
): Float64Array {
  const fastHz = solverRateHz(rateHz);
  const volts = filtered(channelSections(place, fastHz), repeated(doubledRate, doublings(rateHz), drive));
  const gain = voltsGain(car, place);
  const limit = linear ? Number.POSITIVE_INFINITY : place.clipVolts;
  for (let n = 0; n < volts.length; n++) volts[n] = Math.max(-limit, Math.min(limit, gain * volts[n]));
  const driver = linear ? { ...place.driver, stroke: LINEAR_STROKE } : place.driver;
  const pressure = filtered(radiationSections(driver, fastHz), coneAcceleration(driver, volts, fastHz));
  const scale = pascalPerAcceleration(driver) / FULL_SCALE_PA;
  for (let n = 0; n < pressure.length; n++) pressure[n] *= scale;
  return repeated(halvedRate, doublings(rateHz), pressure);
}

/** Cabin and microphone of a place at the track's rate; the direct sound stands at `DIRECT_INDEX`. */
export function roomImpulse(car: SimulatedCar, place: SimulatedPlace, rateHz: number): Float64Array {
  return filtered(microphoneSections(rateHz), cabinImpulse(place.cabin, car.zone, rateHz));
}

/** Small-signal impulse response from file to recording without the direct sound's flight, which stands at `zeroIndex`. */
export function placeImpulse(
  car: SimulatedCar,
  place: SimulatedPlace,
  rateHz: number,
): { response: Float64Array; zeroIndex: number } {
  const impulse = new Float64Array(LEAD + Math.ceil(0.25 * rateHz));
  impulse[LEAD] = 1;
  const source = radiated(car, place, impulse, rateHz, true);
  return { response: chained(source, roomImpulse(car, place, rateHz)), zeroIndex: LEAD + DIRECT_INDEX };
}

/** Cabin and microphone at given frequencies, as formulas; from 1 m and full scale to full scale. */
export function roomResponse(
  car: SimulatedCar,
  place: SimulatedPlace,
  fHz: ArrayLike<number>,
  rateHz: number,
): Complex[] {
  const microphone = microphoneSections(rateHz);
  return cabinResponse(place.cabin, car.zone, fHz, rateHz).map((value, k) =>
    product(value, sectionsResponse(microphone, fHz[k], rateHz)),
  );
}

/** Everything of the file-to-recording response that comes before the cabin, small signal, at one frequency. */
export function sourceResponse(car: SimulatedCar, place: SimulatedPlace, fHz: number, rateHz: number): Complex {
  const fastHz = solverRateHz(rateHz);
  const channel = sectionsResponse(channelSections(place, fastHz), fHz, fastHz);
  const gain = (voltsGain(car, place) * solverRateResponse(fHz, rateHz)) / FULL_SCALE_PA;
  return scaled(product(channel, driverResponse(place.driver, fHz, fastHz)), gain);
}

/** Small-signal response of a place from file to recording, as formulas, the direct sound's flight removed. */
export function placeResponse(
  car: SimulatedCar,
  place: SimulatedPlace,
  fHz: ArrayLike<number>,
  rateHz: number,
): Complex[] {
  return roomResponse(car, place, fHz, rateHz).map((room, k) =>
    product(sourceResponse(car, place, fHz[k], rateHz), room),
  );
}

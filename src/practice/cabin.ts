// The way from a cone to the microphone: direct sound, early reflections, standing waves, a decaying tail, pressure zone.
import { seedFor, whiteNoise } from './chance.ts';
import { type Complex, complex, delayTurn, product, scaled, sequenceResponse, sum } from './complex.ts';
import { addAt, addConvolved } from './convolution.ts';
import { addPulse } from './interpolation.ts';
import {
  bandPass2,
  filtered,
  highPass2,
  highShelf1,
  lowPass1,
  lowPass2,
  type Section,
  sectionFromAnalogue,
  sectionsResponse,
} from './sections.ts';

/** One early reflection; gain and delay against the direct sound. */
export interface Reflection {
  lagS: number;
  gain: number;
  /** The surface swallows what is above. */
  softAboveHz: number;
}

/** One standing wave, excited by the direct sound. */
export interface CabinMode {
  fHz: number;
  q: number;
  /** Signed, against the direct sound at `fHz`. */
  gain: number;
}

/** Late sound in one band: noise that fades by 60 dB in `decayS`. */
export interface TailBand {
  lowHz: number;
  highHz: number;
  decayS: number;
  /** Energy in the band against the direct sound's, dB. */
  levelDb: number;
}

/** What the cabin does to one place; all times in s. */
export interface CabinPath {
  /** Metres from cone to microphone; sets the level of the direct sound (1 / r). */
  distanceM: number;
  /** Change of the treble of the direct sound off the driver's axis. */
  offAxisDb: number;
  reflections: readonly Reflection[];
  modes: readonly CabinMode[];
  tail: readonly TailBand[];
  tailSeed: number;
}

/** What all places of a car share: below `cornerHz` pressure rises by 12 dB per octave down to `leakHz`. */
export interface PressureZone {
  cornerHz: number;
  leakHz: number;
}

const OFF_AXIS_HZ = 5000;
const TAIL_BEGINS_S = 0.0025;
const TAIL_SWELLS_S = 0.003;
/** By then the pressure zone's leak and a microphone's lower end have died away too; the tail did long before. */
const RESPONSE_S = 0.4;

/** Where the direct sound stands in a response from `cabinImpulse`. */
export const DIRECT_INDEX = 64;

function zoneSections(zone: PressureZone, rateHz: number): Section[] {
  // (s^2 + sqrt2 wc s + wc^2) / (s^2 + sqrt2 wl s + wl^2): its power gain is (1 + (fc/f)^4) / (1 + (fl/f)^4).
  const ratio = zone.leakHz / zone.cornerHz;
  return [sectionFromAnalogue([1, Math.SQRT2, 1], [ratio * ratio, Math.SQRT2 * ratio, 1], zone.cornerHz, rateHz)];
}

function directSections(path: CabinPath, rateHz: number): Section[] {
  return path.offAxisDb === 0 ? [] : [highShelf1(OFF_AXIS_HZ, path.offAxisDb, rateHz)];
}

/** The late sound alone, against the direct sound = 1, from the moment of the direct sound. */
function tailSequence(path: CabinPath, rateHz: number): Float64Array {
  const longest = path.tail.reduce((most, band) => Math.max(most, band.decayS), 0);
  const length = Math.ceil((TAIL_BEGINS_S + 1.3 * longest) * rateHz);
  const total = new Float64Array(path.tail.length > 0 ? length : 0);
  path.tail.forEach((band, index) => {
    const noise = whiteNoise(seedFor(path.tailSeed, `tail ${index}`), length);
    const begin = Math.round(TAIL_BEGINS_S * rateHz);
    for (let n = 0; n < length; n++) {
      const t = (n - begin) / rateHz;
      noise[n] *= t < 0 ? 0 : (1 - Math.exp(-t / TAIL_SWELLS_S)) * 10 ** ((-3 * t) / band.decayS);
    }
    const high = Math.min(band.highHz, 0.45 * rateHz);
    if (high <= band.lowHz) return;
    const shaped = filtered([highPass2(band.lowHz, Math.SQRT1_2, rateHz), lowPass2(high, Math.SQRT1_2, rateHz)], noise);
    const energy = shaped.reduce((all, value) => all + value * value, 0);
    // A unit pulse has the share (high - low) / (rate / 2) of its energy in the band.
    const wanted = 10 ** (band.levelDb / 10) * ((high - band.lowHz) / (rateHz / 2));
    addAt(total, shaped, 0, Math.sqrt(wanted / energy));
  });
  return total;
}

/**
 * Impulse response of the cabin for one place, the flight of the direct sound left out (it stands at `DIRECT_INDEX`).
 *
 * @param path,zone  see their types
 * @param rateHz     8 000 .. 192 000
 * @returns pressure against pressure at 1 m; 0.4 s
 */
export function cabinImpulse(path: CabinPath, zone: PressureZone, rateHz: number): Float64Array {
  const length = Math.ceil(RESPONSE_S * rateHz);
  const direct = new Float64Array(length);
  direct[DIRECT_INDEX] = 1;
  const coloured = filtered(directSections(path, rateHz), direct);
  const total = Float64Array.from(coloured);
  for (const { lagS, gain, softAboveHz } of path.reflections) {
    const pulse = new Float64Array(length);
    addPulse(pulse, DIRECT_INDEX + lagS * rateHz, gain);
    addAt(total, filtered([lowPass1(Math.min(softAboveHz, 0.45 * rateHz), rateHz)], pulse), 0);
  }
  for (const mode of path.modes) addAt(total, filtered([bandPass2(mode.fHz, mode.q, rateHz)], direct), 0, mode.gain);
  addAt(total, tailSequence(path, rateHz), DIRECT_INDEX);
  const zoned = filtered(zoneSections(zone, rateHz), total);
  for (let n = 0; n < length; n++) zoned[n] /= path.distanceM;
  return zoned;
}

/** Response of the same at given frequencies as a formula (the tail, which is noise, as its own Fourier sum). */
export function cabinResponse(path: CabinPath, zone: PressureZone, fHz: ArrayLike<number>, rateHz: number): Complex[] {
  const tail = tailSequence(path, rateHz);
  return Array.from(fHz, (f) => {
    let total: Complex = sectionsResponse(directSections(path, rateHz), f, rateHz);
    for (const { lagS, gain, softAboveHz } of path.reflections) {
      const soft = sectionsResponse([lowPass1(Math.min(softAboveHz, 0.45 * rateHz), rateHz)], f, rateHz);
      total = sum(total, scaled(product(soft, delayTurn(f, lagS)), gain));
    }
    for (const { fHz: centreHz, q, gain } of path.modes) {
      total = sum(total, scaled(sectionsResponse([bandPass2(centreHz, q, rateHz)], f, rateHz), gain));
    }
    total = sum(total, tail.length > 0 ? sequenceResponse(tail, f, rateHz) : complex(0));
    return scaled(product(total, sectionsResponse(zoneSections(zone, rateHz), f, rateHz)), 1 / path.distanceM);
  });
}

/** Two responses in a row as one: their convolution, `first.length + second.length - 1` long. */
export function chained(first: Float64Array, second: Float64Array): Float64Array {
  const out = new Float64Array(first.length + second.length - 1);
  addConvolved(out, first, second);
  return out;
}

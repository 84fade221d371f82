// Fractional-octave bands: where they lie, what they are called, and how much power falls into each.
import { assertRange } from '../base/assert.ts';

/** One band of a fraction of an octave, exact values in Hz; `nominalHz` is only its name. */
export interface OctaveBand {
  /** Counts bands from the one at or just above 1 kHz. */
  readonly index: number;
  readonly lowHz: number;
  readonly centreHz: number;
  readonly highHz: number;
  readonly nominalHz: number;
}

const THIRD_OCTAVE_NAMES = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

/** The decade and the digits (1 .. 10) of a frequency, safe at exact powers of ten. */
function digits(fHz: number): { decade: number; mantissa: number } {
  const decade = Math.floor(Math.log10(fHz) + 1e-9);
  return { decade, mantissa: fHz / 10 ** decade };
}

/** Multiplying by a negative power of ten leaves 31.500000000000004; names are cut to the digits they have. */
function name(mantissa: number, decade: number): number {
  return Number(`${mantissa}e${decade}`);
}

function nominal(fraction: number, index: number, centreHz: number): number {
  if (fraction === 1 || fraction === 3) {
    const tenths = fraction === 1 ? 3 * index : index;
    const step = ((tenths % 10) + 10) % 10;
    return name(THIRD_OCTAVE_NAMES[step], 3 + (tenths - step) / 10);
  }
  const { decade, mantissa } = digits(centreHz);
  return name(Number(mantissa.toFixed(mantissa < 5 ? 2 : 1)), decade);
}

function assertFraction(fraction: number): void {
  if (!(Number.isInteger(fraction) && fraction >= 1 && fraction <= 96)) {
    throw new RangeError(`fraction must be a whole number 1..96, got ${fraction}`);
  }
}

/**
 * The band of index `index` for 1/`fraction` octave.
 *
 * Base ten: G = 10^(3/10). Odd fractions have a band centred on 1 kHz, 1000 G^(index/fraction); even ones have an edge
 * there, 1000 G^((2 index + 1)/(2 fraction)). Edges lie half a band away: centre G^(-+1/(2 fraction)).
 *
 * @param fraction  whole number 1 .. 96: 1 octaves, 3 third octaves
 * @param index     whole number, centre between 1 mHz and 1 GHz
 * @returns exact frequencies; `nominalHz` 31.5, 40, 50, 63 ... for octaves and third octaves, otherwise the centre to
 *   three digits where it begins with 1 to 4 and to two where it begins with 5 to 9
 * @throws RangeError  an argument outside its range
 * Accuracy: 1e-11 of the frequency (test/vectors/bands.json)
 * Source: IEC 61260-1:2014, clauses 5.2 to 5.5 and annex E.
 * @example octaveBand(3, -14) // { lowHz: 35.48, centreHz: 39.81, highHz: 44.67, nominalHz: 40, index: -14 }
 */
export function octaveBand(fraction: number, index: number): OctaveBand {
  assertFraction(fraction);
  if (!Number.isInteger(index)) throw new RangeError(`index must be a whole number, got ${index}`);
  assertRange('index', index, -20 * fraction, 20 * fraction);
  const exponent = fraction % 2 === 1 ? index / fraction : (2 * index + 1) / (2 * fraction);
  const half = 1 / (2 * fraction);
  const centreHz = 1000 * 10 ** (0.3 * exponent);
  return {
    index,
    lowHz: 1000 * 10 ** (0.3 * (exponent - half)),
    centreHz,
    highHz: 1000 * 10 ** (0.3 * (exponent + half)),
    nominalHz: nominal(fraction, index, centreHz),
  };
}

/**
 * All bands of 1/`fraction` octave whose exact centre lies in [fromHz, toHz], rising.
 *
 * @param fraction  whole number 1 .. 96
 * @param fromHz    0.001 .. toHz, Hz
 * @param toHz      fromHz .. 1 000 000, Hz
 * @returns possibly none
 * @throws RangeError  an argument outside its range
 * @example octaveBands(1, 30, 17000).map((band) => band.nominalHz) // 31.5, 63, 125 ... 16000
 */
export function octaveBands(fraction: number, fromHz: number, toHz: number): OctaveBand[] {
  assertFraction(fraction);
  assertRange('toHz', toHz, 1e-3, 1e6);
  assertRange('fromHz', fromHz, 1e-3, toHz);
  const shift = fraction % 2 === 1 ? 0 : 0.5;
  // A hair of room, so that a limit given as an exact centre keeps its band in spite of rounding.
  const first = Math.ceil((fraction * Math.log10(fromHz / 1000)) / 0.3 - shift - 1e-9);
  const last = Math.floor((fraction * Math.log10(toHz / 1000)) / 0.3 - shift + 1e-9);
  const bands: OctaveBand[] = [];
  for (let index = first; index <= last; index++) bands.push(octaveBand(fraction, index));
  return bands;
}

/** Which bins a band takes and how much of the outer two; the bins between count whole. */
export interface BandShare {
  readonly firstBin: number;
  readonly lastBin: number;
  readonly firstShare: number;
  readonly lastShare: number;
}

/**
 * How bands divide the bins of a spectrum: bin k owns (k - 1/2) binHz .. (k + 1/2) binHz, and a band takes of each bin
 * the part that overlaps. Neighbouring bands so share out every bin without loss or double count.
 *
 * Good where a band spans at least four bins. It is steeper than any filter: a tone next to an edge jumps whole from one
 * band to the next, so it is no class-1 filter bank.
 *
 * @param bands     lowHz < highHz each
 * @param binHz     spacing of the bins, > 0, Hz
 * @param binCount  whole number >= 1; what a band asks for beyond the last bin is missing from it
 * @returns one share per band; `lastBin < firstBin` for a band wholly beyond the last bin
 * @throws RangeError  an argument outside its range
 */
export function bandShares(
  bands: readonly Pick<OctaveBand, 'lowHz' | 'highHz'>[],
  binHz: number,
  binCount: number,
): BandShare[] {
  assertRange('binHz', binHz, 1e-9, 1e9);
  assertRange('binCount', binCount, 1, 2 ** 40);
  return bands.map(({ lowHz, highHz }) => {
    if (!(lowHz >= 0 && lowHz < highHz))
      throw new RangeError(`a band needs 0 <= lowHz < highHz, got ${lowHz}..${highHz}`);
    // In bins, shifted by half a bin: bin k owns [k, k + 1).
    const low = lowHz / binHz + 0.5;
    const high = Math.min(highHz / binHz + 0.5, binCount);
    const firstBin = Math.floor(low);
    if (low >= high) return { firstBin, lastBin: firstBin - 1, firstShare: 0, lastShare: 0 };
    const lastBin = Math.ceil(high) - 1;
    if (firstBin === lastBin) return { firstBin, lastBin, firstShare: high - low, lastShare: high - low };
    return { firstBin, lastBin, firstShare: firstBin + 1 - low, lastShare: high - lastBin };
  });
}

/** Power of one band from powers per bin; inner loop of `bandPowers`, for callers that keep their shares. */
export function bandPower(binPower: ArrayLike<number>, share: BandShare): number {
  const { firstBin, lastBin, firstShare, lastShare } = share;
  if (lastBin < firstBin) return 0;
  let sum = firstShare * binPower[firstBin];
  if (lastBin === firstBin) return sum;
  for (let k = firstBin + 1; k < lastBin; k++) sum += binPower[k];
  return sum + lastShare * binPower[lastBin];
}

/**
 * Power in each band from the power in each bin of a one-sided spectrum.
 *
 * @param binPower  power of bin k (density times binHz), k = 0, 1, ...; length >= 1; not changed
 * @param binHz     spacing of the bins, > 0, Hz
 * @param bands     any bands; see `bandShares` for how they divide the bins
 * @returns power per band in the unit of binPower; 0 for a band beyond the last bin
 * @throws RangeError  an argument outside its range
 * Accuracy: 1e-7 dB (test/vectors/bands.json)
 * @example bandPowers([0, 1, 1, 1], 100, [{ lowHz: 50, highHz: 200 }]) // 1.5
 */
export function bandPowers(
  binPower: ArrayLike<number>,
  binHz: number,
  bands: readonly Pick<OctaveBand, 'lowHz' | 'highHz'>[],
): Float64Array {
  return Float64Array.from(bandShares(bands, binHz, binPower.length), (share) => bandPower(binPower, share));
}

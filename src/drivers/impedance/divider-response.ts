// What stands at a driver of what stands before a known resistor, against frequency, from two recorded voltages.
import { failure, type Result, success } from '../../base/result.ts';
import { inverseRealFft, powerOfTwoFrom, realFft, type Spectrum } from '../../signals/fft.ts';
import { logGrid } from '../../signals/log-grid.ts';

/** Both voltages of one take, or of two takes of the same sound one after the other. Any one unit. */
export interface VoltagePair {
  /** Before the resistor: across resistor and driver. */
  sourceV: Float64Array;
  /** After it: across the driver. */
  driverV: Float64Array;
  rateHz: number;
  /** Recorded at one time: then no time lies between them. */
  simultaneous: boolean;
}

/** A complex ratio on a rising grid of frequency. */
export interface DividerResponse {
  fHz: Float64Array;
  re: Float64Array;
  im: Float64Array;
  /** Standard deviation of the ratio by what is not of one piece in both voltages. */
  sigma: Float64Array;
}

/** Width over which a point is a mean, octaves: a peak of Q 10 loses 0.3 % of its height. */
const WIDTH_OCTAVES = 1 / 48;
const POINTS_PER_OCTAVE = 48;
/** Where the source carries less than this of its most, per octave, nothing is read. */
const HEARD = 1e-3;
/** Two minutes at 48 kHz; longer takes are cut there by whoever reads them. */
const FRAMES_MAX = 120 * 48_000;
const LOWEST_HZ = 5;
const HIGHEST_SHARE = 0.45;

/** How many samples the driver's take lags behind the source's: where their correlation peaks. */
function lagOf(source: Spectrum, driver: Spectrum, size: number): number {
  const bins = source.re.length;
  const re = new Float64Array(bins);
  const im = new Float64Array(bins);
  for (let k = 1; k < bins; k++) {
    // Each frequency counts alike: the peak is as sharp as the band allows.
    const crossRe = driver.re[k] * source.re[k] + driver.im[k] * source.im[k];
    const crossIm = driver.im[k] * source.re[k] - driver.re[k] * source.im[k];
    const power = source.re[k] ** 2 + source.im[k] ** 2;
    const weight = power > 0 ? 1 / Math.sqrt(power * (driver.re[k] ** 2 + driver.im[k] ** 2) + Number.MIN_VALUE) : 0;
    re[k] = crossRe * weight;
    im[k] = crossIm * weight;
  }
  const correlation = inverseRealFft(re, im, size);
  let at = 0;
  for (let n = 1; n < size; n++) if (correlation[n] > correlation[at]) at = n;
  return at > size / 2 ? at - size : at;
}

/** Turns a spectrum by `-lag` samples. */
function shifted({ re, im }: Spectrum, lag: number, size: number): Spectrum {
  const turned = { re: new Float64Array(re.length), im: new Float64Array(re.length) };
  for (let k = 0; k < re.length; k++) {
    const angle = (2 * Math.PI * ((k * lag) % size)) / size;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    turned.re[k] = re[k] * c - im[k] * s;
    turned.im[k] = re[k] * s + im[k] * c;
  }
  return turned;
}

/**
 * The ratio driver over source wherever the source has sound: any sound that covers the band will do, a sweep is best.
 *
 * Each point is the least-squares ratio over 1/48 octave, so that what only one of the voltages holds averages out.
 * Takes one after the other are laid over each other to one sample; what is left of their delay, `fitImpedance` finds.
 *
 * @returns refused as `silent` where there is nothing to go by, as `too-long` above two minutes at 48 kHz
 * Source: J. S. Bendat, A. G. Piersol, Random Data, 4th ed. 2010, sections 6.1 and 9.2 (least-squares ratio and its error).
 */
export function dividerResponse({ sourceV, driverV, rateHz, simultaneous }: VoltagePair): Result<DividerResponse> {
  const frames = Math.max(sourceV.length, driverV.length);
  if (frames > FRAMES_MAX) {
    const message = `The take has ${frames} samples; an impedance is read from at most ${FRAMES_MAX}.`;
    return failure({ code: 'too-long', message, mend: 'Record one sweep of 5 to 20 s.' });
  }
  // Takes that begin at different times need room to be laid over each other.
  const size = powerOfTwoFrom(Math.max(2, simultaneous ? frames : 2 * frames));
  const source = realFft(sourceV, size);
  const asRecorded = realFft(driverV, size);
  const driver = simultaneous ? asRecorded : shifted(asRecorded, lagOf(source, asRecorded, size), size);
  const binHz = rateHz / size;
  const grid = logGrid({ fromHz: LOWEST_HZ, toHz: HIGHEST_SHARE * rateHz, pointsPerOctave: POINTS_PER_OCTAVE });
  const points = Array.from(grid, (fHz) => ratioAbout(fHz, source, driver, binHz));
  const most = Math.max(...points.map(({ power }) => power));
  const heard = points.filter(({ power }) => power > HEARD * most);
  if (heard.length < POINTS_PER_OCTAVE) {
    const message = 'The input before the resistor holds no sound, or no more than a tone.';
    const mend = 'Check which input is which, and that a sweep was playing while it was recorded.';
    return failure({ code: 'silent', message, mend });
  }
  const column = (of: (point: RatioPoint) => number) => Float64Array.from(heard, of);
  return success({
    fHz: column(({ fHz }) => fHz),
    re: column(({ re }) => re),
    im: column(({ im }) => im),
    // Zero padding makes neighbouring bins say the same; what counts is the time that was recorded.
    sigma: column(({ strange, bins }) => Math.sqrt(strange / Math.max(1, bins * (frames / size)))),
  });
}

interface RatioPoint {
  fHz: number;
  re: number;
  im: number;
  /** Of the source, per octave, in any unit. */
  power: number;
  /** Power of what is not of one piece in both, per power of the source. */
  strange: number;
  /** Bins that the point is a mean of. */
  bins: number;
}

/** The least-squares ratio of two spectra about one frequency. */
function ratioAbout(fHz: number, source: Spectrum, driver: Spectrum, binHz: number): RatioPoint {
  const halfHz = Math.max(binHz, fHz * WIDTH_OCTAVES * Math.LN2);
  let [own, other, crossRe, crossIm, weights, squares] = [0, 0, 0, 0, 0, 0];
  for (let k = Math.max(1, Math.ceil((fHz - halfHz) / binHz)); k <= (fHz + halfHz) / binHz; k++) {
    const weight = 0.5 + 0.5 * Math.cos((Math.PI * (k * binHz - fHz)) / halfHz);
    own += weight * (source.re[k] ** 2 + source.im[k] ** 2);
    other += weight * (driver.re[k] ** 2 + driver.im[k] ** 2);
    crossRe += weight * (driver.re[k] * source.re[k] + driver.im[k] * source.im[k]);
    crossIm += weight * (driver.im[k] * source.re[k] - driver.re[k] * source.im[k]);
    weights += weight;
    squares += weight * weight;
  }
  if (!(own > 0)) return { fHz, re: 0, im: 0, power: 0, strange: 0, bins: 0 };
  const [re, im] = [crossRe / own, crossIm / own];
  const strange = Math.max(0, other / own - re * re - im * im);
  return { fHz, re, im, power: (own / weights) * fHz, strange, bins: (weights * weights) / squares };
}

// An impedance sweep through a known resistor: the curve, and the driver's resonance, Qs and resistance from it.
import { failure, type Result, success } from '../../base/result.ts';
import { totalQ } from '../driver.ts';
import { type DividerResponse, dividerResponse, type VoltagePair } from './divider-response.ts';
import { type Complex, dividerOf, type ImpedanceModel, impedanceOf, modelImpedance } from './impedance-model.ts';
import { leastSquares } from './least-squares.ts';

/** The curve that was measured, leads taken off. */
export interface ImpedanceCurve {
  fHz: number[];
  ohm: number[];
  phaseDeg: number[];
}

/** What the curve says of the driver. */
export interface MeasuredDriver {
  /** Of the coils as they were joined, leads taken off. */
  reOhm: number;
  fsHz: number;
  qms: number;
  qes: number;
  qts: number;
  /** The top of the peak. */
  mostOhm: number;
  /** The coil's inductance as it acts at 1 kHz, mH. */
  leMh: number;
  /** One standard deviation of the fit, percent of the value. */
  sigmaPct: { reOhm: number; fsHz: number; qts: number };
  /** How far curve and formula lie apart, root mean square, percent. */
  fitErrorPct: number;
}

export interface ImpedanceReading {
  curve: ImpedanceCurve;
  driver: MeasuredDriver;
}

export interface ImpedanceQuestion {
  pair: VoltagePair;
  /** The same inputs with the driver unplugged: both then see the same voltage, and what differs is theirs. */
  unplugged?: VoltagePair;
  /** The known resistor, above 0. */
  seriesOhm: number;
  /** Leads and clips between the second input and the coil, 0 or more. */
  leadOhm: number;
}

/** Above this the curve is not that of one driver in free air. */
const FIT_ERROR_MAX_PCT = 8;
/** A peak that stands out less than this over the resistance says nothing. */
const PEAK_LEAST = 1.25;
/** How far above the resonance the coil's formula is trusted. */
const FIT_UP_TO = 20;
const SECOND_PEAK = 1.35;
/** In points of the grid. */
const HALF_OCTAVE = 24;
/** Points that are noisier than this, such as those at the mains hum, count less. */
const SIGMA_USUAL = 0.002;
const weightOf = (sigma: number) => 1 / Math.hypot(1, sigma / SIGMA_USUAL);

/** The response of the divider itself: what the inputs add is divided out. */
function correctedBy(response: DividerResponse, inputs: DividerResponse): DividerResponse {
  const { fHz } = inputs;
  const last = fHz.length - 1;
  const ratio = { re: Float64Array.from(response.re), im: Float64Array.from(response.im) };
  response.fHz.forEach((f, n) => {
    let at = 0;
    while (at < last - 1 && fHz[at + 1] < f) at++;
    const share = Math.min(1, Math.max(0, (f - fHz[at]) / (fHz[at + 1] - fHz[at])));
    const [re, im] = [inputs.re, inputs.im].map((part) => part[at] + share * (part[at + 1] - part[at]));
    const size = re * re + im * im;
    ratio.re[n] = (response.re[n] * re + response.im[n] * im) / size;
    ratio.im[n] = (response.im[n] * re - response.re[n] * im) / size;
  });
  return { ...response, ...ratio };
}

const sizeOf = ({ re, im }: Complex) => Math.hypot(re, im);

interface Resonance {
  fHz: number;
  ohm: number;
}

/**
 * The top of each resonance: where the impedance turns from inductive to capacitive, and the divider passes on more than
 * half an octave to either side, which no delay between two takes can feign.
 */
function resonances(fHz: readonly number[], z: readonly Complex[], passed: readonly number[]): Resonance[] {
  const found: Resonance[] = [];
  // A window of a sixth of an octave each side: noise turns the phase, a resonance turns it for good.
  const width = 8;
  for (let n = width; n < z.length - width; n++) {
    if (!(z[n - 1].im >= 0 && z[n].im < 0)) continue;
    const [before, after] = [z.slice(n - width, n), z.slice(n, n + width)];
    const rises = before.filter(({ im }) => im > 0).length > width / 2;
    const falls = after.filter(({ im }) => im < 0).length > width / 2;
    const ohm = Math.max(...before.map(sizeOf), ...after.map(sizeOf));
    const peak = passed[n] > 1.02 * (passed[n - HALF_OCTAVE] ?? 0) && passed[n] > 1.02 * (passed[n + HALF_OCTAVE] ?? 0);
    if (rises && falls && peak && !found.some((known) => Math.abs(Math.log2(fHz[n] / known.fHz)) < 0.25)) {
      found.push({ fHz: fHz[n], ohm });
    }
  }
  return found;
}

function noResonance(fHz: readonly number[]): Result<never> {
  const [from, to] = [fHz[0].toFixed(0), fHz[fHz.length - 1].toFixed(0)];
  return failure({
    code: 'no-resonance',
    message: `No resonance stands out between ${from} and ${to} Hz.`,
    mend: 'Sweep from well below the resonance, hold the driver free in the air, and check resistor and clips.',
  });
}

/** First guess of the six numbers, from the curve's own features. */
function guess(fHz: readonly number[], z: readonly Complex[], top: Resonance): ImpedanceModel {
  const near = z.filter((_, n) => fHz[n] > top.fHz / 8 && fHz[n] < FIT_UP_TO * top.fHz);
  const reOhm = Math.min(...near.map(sizeOf));
  const half = Math.sqrt(reOhm * top.ohm);
  const at = fHz.findIndex((f) => f >= top.fHz);
  let [low, high] = [at, at];
  while (low > 0 && sizeOf(z[low]) > half) low--;
  while (high < z.length - 1 && sizeOf(z[high]) > half) high++;
  const qms = (top.fHz * Math.sqrt(top.ohm / reOhm)) / Math.max(fHz[high] - fHz[low], 0.02 * top.fHz);
  // The coil by what it does where it does most.
  const highest = fHz.findLastIndex((f) => f < FIT_UP_TO * top.fHz);
  const semiN = 0.8;
  const coilOhm = Math.max(Math.abs(z[highest].im), 0.01 * reOhm) / Math.sin((semiN * Math.PI) / 2);
  const semiK = coilOhm / (2 * Math.PI * fHz[highest]) ** semiN;
  return { reOhm, fsHz: top.fHz, qms, peakOhm: Math.max(top.ohm - reOhm, 0.1 * reOhm), semiK, semiN };
}

const toUnknowns = (model: ImpedanceModel) => [
  Math.log(model.reOhm),
  Math.log(model.fsHz),
  Math.log(model.qms),
  Math.log(model.peakOhm),
  Math.log(model.semiK),
  Math.log((model.semiN - 0.3) / (1 - model.semiN)),
];

const fromUnknowns = (values: ArrayLike<number>): ImpedanceModel => ({
  reOhm: Math.exp(values[0]),
  fsHz: Math.exp(values[1]),
  qms: Math.exp(values[2]),
  peakOhm: Math.exp(values[3]),
  semiK: Math.exp(values[4]),
  semiN: 0.3 + 0.7 / (1 + Math.exp(-values[5])),
});

/**
 * Reads an impedance sweep: what stands before a known resistor, and behind it at the driver.
 *
 * The formula of one resonance and a lossy coil is fitted to the divided voltages themselves, where noise is even, from
 * an eighth to twenty times the resonance. Takes one after the other leave a part of a sample of delay: it is fitted too.
 *
 * @returns refused where nothing is heard (`silent`), the inputs are swapped (`inputs-swapped`), no resonance stands out
 *   (`no-resonance`), or the curve is that of something else (`two-resonances`, `not-one-driver`)
 * Source: IEC 60268-5, impedance by a series resistor; the fit is `leastSquares`.
 */
export function measuredDriver({ pair, unplugged, seriesOhm, leadOhm }: ImpedanceQuestion): Result<ImpedanceReading> {
  const raw = dividerResponse(pair);
  if (!raw.ok) return raw;
  const inputs = unplugged === undefined ? null : dividerResponse(unplugged);
  if (inputs !== null && !inputs.ok) return inputs;
  const response = inputs === null ? raw.value : correctedBy(raw.value, inputs.value);
  const fHz = Array.from(response.fHz);
  const passed = fHz.map((_, n) => Math.hypot(response.re[n], response.im[n]));
  const middle = [...passed].sort((a, b) => a - b)[passed.length >> 1];
  if (middle > 1.02) {
    const message = 'The input that should be at the driver carries more than the one before the resistor.';
    return failure({ code: 'inputs-swapped', message, mend: 'Give the inputs the other way round.' });
  }
  if (middle < 1e-4) {
    const message = 'The input at the driver holds next to nothing.';
    return failure({ code: 'silent', message, mend: 'Check its clip, and that the driver is not shorted.' });
  }
  const z = fHz.map((_, n) => impedanceOf({ re: response.re[n], im: response.im[n] }, seriesOhm));
  const tops = resonances(fHz, z, passed);
  const top = tops.reduce<Resonance | null>((most, one) => (most === null || one.ohm > most.ohm ? one : most), null);
  if (top === null) return noResonance(fHz);
  const start = guess(fHz, z, top);
  if (top.ohm < PEAK_LEAST * start.reOhm) return noResonance(fHz);
  const others = tops.filter((one) => one !== top && one.ohm > SECOND_PEAK * start.reOhm);
  if (others.length > 0) {
    const both = [top, ...others].map((one) => one.fHz).sort((a, b) => a - b);
    const between = fHz.filter((f) => f > both[0] && f < both[1]);
    const lowestHz = between.reduce(
      (low, f) => (sizeOf(z[fHz.indexOf(f)]) < sizeOf(z[fHz.indexOf(low)]) ? f : low),
      between[0] ?? both[0],
    );
    return failure({
      code: 'two-resonances',
      message: `There are peaks at ${both.map((f) => f.toFixed(0)).join(' and ')} Hz: this driver is in a vented box, tuned to about ${lowestHz.toFixed(0)} Hz, or something rings with it.`,
      mend: 'For the driver itself take it out of the box and hold it free in the air.',
    });
  }
  const used = fHz.flatMap((f, n) => (f > top.fHz / 8 && f < FIT_UP_TO * top.fHz ? [n] : []));
  // In samples, so that it is about as large as the others.
  const delayOf = (values: Float64Array) => (pair.simultaneous ? 0 : values[6] / pair.rateHz);
  const residuals = (values: Float64Array) => {
    const model = fromUnknowns(values);
    const left = new Float64Array(2 * used.length);
    used.forEach((n, i) => {
      const weight = weightOf(response.sigma[n]);
      const ratio = dividerOf(modelImpedance(model, fHz[n]), seriesOhm, fHz[n], delayOf(values));
      left[2 * i] = weight * (ratio.re - response.re[n]);
      left[2 * i + 1] = weight * (ratio.im - response.im[n]);
    });
    return left;
  };
  const fitted = leastSquares([...toUnknowns(start), ...(pair.simultaneous ? [] : [0])], residuals);
  return told({ fitted, response, seriesOhm, leadOhm, used, delayS: delayOf(fitted.values) });
}

interface Found {
  fitted: ReturnType<typeof leastSquares>;
  response: DividerResponse;
  seriesOhm: number;
  leadOhm: number;
  used: readonly number[];
  delayS: number;
}

/** The fit in the words of a driver, and the curve beside it. */
function told({ fitted, response, seriesOhm, leadOhm, used, delayS }: Found): Result<ImpedanceReading> {
  const model = fromUnknowns(fitted.values);
  const fHz = Array.from(response.fHz);
  const z = fHz.map((f, n) => {
    const angle = 2 * Math.PI * f * delayS;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const ratio = { re: response.re[n] * c - response.im[n] * s, im: response.re[n] * s + response.im[n] * c };
    const { re, im } = impedanceOf(ratio, seriesOhm);
    return { re: re - leadOhm, im };
  });
  const reOhm = model.reOhm - leadOhm;
  let [squares, weights] = [0, 0];
  for (const n of used) {
    const fit = modelImpedance(model, fHz[n]);
    const weight = weightOf(response.sigma[n]) ** 2;
    const away = Math.hypot(fit.re - leadOhm - z[n].re, fit.im - z[n].im) / Math.max(sizeOf(fit), 1e-9);
    squares += weight * away * away;
    weights += weight;
  }
  const fitErrorPct = 100 * Math.sqrt(squares / weights);
  if (!(reOhm > 0) || !(fitErrorPct < FIT_ERROR_MAX_PCT)) {
    const off =
      reOhm > 0 ? `by ${fitErrorPct.toFixed(0)} %` : 'as far as its resistance, which is below that of the leads';
    return failure({
      code: 'not-one-driver',
      message: `The curve differs from that of one driver in free air ${off}.`,
      mend: 'Take the driver out of its box and off the bench, check clips and resistor, and turn the level so that nothing clips.',
    });
  }
  const qes = (model.qms * reOhm) / model.peakOhm;
  const at1k = modelImpedance(model, 1000);
  const motional = modelImpedance({ ...model, semiK: 0 }, 1000);
  const [reSigma, fsSigma, qmsSigma, peakSigma] = fitted.sigma;
  const driver: MeasuredDriver = {
    reOhm,
    fsHz: model.fsHz,
    qms: model.qms,
    qes,
    qts: totalQ(model.qms, qes),
    mostOhm: reOhm + model.peakOhm,
    leMh: (at1k.im - motional.im) / (2 * Math.PI),
    sigmaPct: {
      reOhm: (100 * reSigma * model.reOhm) / reOhm,
      fsHz: 100 * fsSigma,
      qts: 100 * Math.hypot(qmsSigma, reSigma, peakSigma),
    },
    fitErrorPct,
  };
  return success({
    curve: { fHz, ohm: z.map(sizeOf), phaseDeg: z.map(({ re, im }) => (180 / Math.PI) * Math.atan2(im, re)) },
    driver,
  });
}

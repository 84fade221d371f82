// One resonance and a lossy coil, fitted to what a divider passed on.
import type { DividerResponse } from './divider-response.ts';
import { dividerOf, FIT_UP_TO, type ImpedanceModel, modelImpedance } from './impedance-model.ts';
import { leastSquares } from './least-squares.ts';

/** Points that are noisier than this, such as those at the mains hum, count less. */
const SIGMA_USUAL = 0.002;

/** What a point of the response counts. */
export const weightOf = (sigma: number) => 1 / Math.hypot(1, sigma / SIGMA_USUAL);

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

export interface FitQuestion {
  response: DividerResponse;
  start: ImpedanceModel;
  /** The known resistor, above 0. */
  seriesOhm: number;
  rateHz: number;
  /** Recorded at one time: then no delay is fitted. */
  simultaneous: boolean;
}

export interface ImpedanceFit {
  model: ImpedanceModel;
  /** One standard deviation of the logarithm of resistance, resonance, mechanical Q and peak. */
  sigma: { reOhm: number; fsHz: number; qms: number; peakOhm: number };
  /** Of the driver's voltage against the source's. */
  delayS: number;
  /** Points of the response that it rests on. */
  used: readonly number[];
}

/**
 * Fits the formula to the divided voltages themselves, where noise is even, from an eighth to twenty times the resonance.
 * Takes one after the other leave a part of a sample of delay: it is fitted too.
 *
 * Source: `modelImpedance` and `leastSquares`.
 */
export function fitImpedance({ response, start, seriesOhm, rateHz, simultaneous }: FitQuestion): ImpedanceFit {
  const fHz = Array.from(response.fHz);
  const used = fHz.flatMap((f, n) => (f > start.fsHz / 8 && f < FIT_UP_TO * start.fsHz ? [n] : []));
  // In samples, so that it is about as large as the others.
  const delayOf = (values: Float64Array) => (simultaneous ? 0 : values[6] / rateHz);
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
  const { values, sigma } = leastSquares([...toUnknowns(start), ...(simultaneous ? [] : [0])], residuals);
  const [reOhm, fsHz, qms, peakOhm] = sigma;
  return { model: fromUnknowns(values), sigma: { reOhm, fsHz, qms, peakOhm }, delayS: delayOf(values), used };
}

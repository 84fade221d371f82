// What a fit says of a driver, in the words of its sheet, and the curve beside it.
import { failure, type Result, success } from '../../base/result.ts';
import { totalQ } from '../driver.ts';
import type { DividerResponse } from './divider-response.ts';
import { type ImpedanceFit, weightOf } from './fit-impedance.ts';
import { impedanceOf, modelImpedance, sizeOf } from './impedance-model.ts';

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

/** Above this the curve is not that of one driver in free air. */
const FIT_ERROR_MAX_PCT = 8;

/** The circuit that the voltages were taken in. */
interface Circuit {
  seriesOhm: number;
  leadOhm: number;
}

/**
 * The driver that a fit shows, leads taken off.
 *
 * @returns refused as `not-one-driver` where curve and formula lie further apart than those of a driver in free air
 */
export function impedanceReading(
  { model, sigma, delayS, used }: ImpedanceFit,
  response: DividerResponse,
  { seriesOhm, leadOhm }: Circuit,
): Result<ImpedanceReading> {
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
  const driver: MeasuredDriver = {
    reOhm,
    fsHz: model.fsHz,
    qms: model.qms,
    qes,
    qts: totalQ(model.qms, qes),
    mostOhm: reOhm + model.peakOhm,
    leMh: (at1k.im - motional.im) / (2 * Math.PI),
    sigmaPct: {
      reOhm: (100 * sigma.reOhm * model.reOhm) / reOhm,
      fsHz: 100 * sigma.fsHz,
      qts: 100 * Math.hypot(sigma.qms, sigma.reOhm, sigma.peakOhm),
    },
    fitErrorPct,
  };
  return success({
    curve: { fHz, ohm: z.map(sizeOf), phaseDeg: z.map(({ re, im }) => (180 / Math.PI) * Math.atan2(im, re)) },
    driver,
  });
}

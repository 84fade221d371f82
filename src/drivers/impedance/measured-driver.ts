// An impedance sweep through a known resistor: the curve, and the driver's resonance, Qs and resistance from it.
import { failure, type Result, success } from '../../base/result.ts';
import { dividerResponse, type VoltagePair } from './divider-response.ts';
import { firstGuess } from './first-guess.ts';
import { fitImpedance } from './fit-impedance.ts';
import { type Complex, type ImpedanceModel, impedanceOf, sizeOf } from './impedance-model.ts';
import { type ImpedanceReading, impedanceReading } from './impedance-reading.ts';
import { correctedBy } from './input-correction.ts';
import { type Resonance, resonances } from './resonances.ts';

export interface ImpedanceQuestion {
  pair: VoltagePair;
  /** The same inputs with the driver unplugged: both then see the same voltage, and what differs is theirs. */
  unplugged?: VoltagePair;
  /** The known resistor, above 0. */
  seriesOhm: number;
  /** Leads and clips between the second input and the coil, 0 or more. */
  leadOhm: number;
}

/** A peak that stands out less than this over the resistance says nothing. */
const PEAK_LEAST = 1.25;
const SECOND_PEAK = 1.35;

function noResonance(fHz: readonly number[]): Result<never> {
  const [from, to] = [fHz[0].toFixed(0), fHz[fHz.length - 1].toFixed(0)];
  return failure({
    code: 'no-resonance',
    message: `No resonance stands out between ${from} and ${to} Hz.`,
    mend: 'Sweep from well below the resonance, hold the driver free in the air, and check resistor and clips.',
  });
}

/** The one resonance of a driver in free air as a first guess, or why the curve is not one's. */
function oneResonance(
  fHz: readonly number[],
  z: readonly Complex[],
  passed: readonly number[],
): Result<ImpedanceModel> {
  const tops = resonances(fHz, z, passed);
  const top = tops.reduce<Resonance | null>((most, one) => (most === null || one.ohm > most.ohm ? one : most), null);
  if (top === null) return noResonance(fHz);
  const start = firstGuess(fHz, z, top);
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
  return success(start);
}

/** Why the inputs cannot be those of a divider; null where they can. */
function misplaced(passed: readonly number[]): Result<never> | null {
  const middle = [...passed].sort((a, b) => a - b)[passed.length >> 1];
  if (middle > 1.02) {
    const message = 'The input that should be at the driver carries more than the one before the resistor.';
    return failure({ code: 'inputs-swapped', message, mend: 'Give the inputs the other way round.' });
  }
  if (middle < 1e-4) {
    const message = 'The input at the driver holds next to nothing.';
    return failure({ code: 'silent', message, mend: 'Check its clip, and that the driver is not shorted.' });
  }
  return null;
}

/**
 * Reads an impedance sweep: what stands before a known resistor, and behind it at the driver.
 *
 * The formula of one resonance and a lossy coil is fitted to the divided voltages: see `fitImpedance`.
 *
 * @returns refused where nothing is heard (`silent`), the inputs are swapped (`inputs-swapped`), no resonance stands out
 *   (`no-resonance`), or the curve is that of something else (`two-resonances`, `not-one-driver`)
 * Source: IEC 60268-5, impedance by a series resistor.
 */
export function measuredDriver({ pair, unplugged, seriesOhm, leadOhm }: ImpedanceQuestion): Result<ImpedanceReading> {
  const raw = dividerResponse(pair);
  if (!raw.ok) return raw;
  const inputs = unplugged === undefined ? null : dividerResponse(unplugged);
  if (inputs !== null && !inputs.ok) return inputs;
  const response = inputs === null ? raw.value : correctedBy(raw.value, inputs.value);
  const fHz = Array.from(response.fHz);
  const passed = fHz.map((_, n) => Math.hypot(response.re[n], response.im[n]));
  const wrong = misplaced(passed);
  if (wrong !== null) return wrong;
  const z = fHz.map((_, n) => impedanceOf({ re: response.re[n], im: response.im[n] }, seriesOhm));
  const start = oneResonance(fHz, z, passed);
  if (!start.ok) return start;
  const { rateHz, simultaneous } = pair;
  const fit = fitImpedance({ response, start: start.value, seriesOhm, rateHz, simultaneous });
  return impedanceReading(fit, response, { seriesOhm, leadOhm });
}

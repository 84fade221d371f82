// The frequency response that one sweep shows, with what noise does to it.
import { powerOfTwoFrom, type Spectrum } from '../signals/fft.ts';
import { harmonicLeadS } from '../signals/sweep.ts';
import { densityBetween, type NoiseDensity } from './noise-density.ts';
import { meanPower, type PowerCurve, powerCurve } from './power-curve.ts';
import { type SweepImpulse, spectrumAbout, type TimeWindow, windowed } from './sweep-impulse.ts';

/** Periods of the sweep's first frequency that the long view begins before the arrival. */
const LEAD_PERIODS = 1.5;
const LEAD_LEAST_S = 0.005;

/**
 * The long view: what a steady tone does.
 *
 * A response that does not fall before the sweep begins rings ahead of its arrival at the sweep's first frequency: cut
 * off 5 ms before, it was 1.6 dB wrong at 1.6 times that frequency; 1.5 periods and a slow rise leave 0.1 dB. At most 40 %
 * of the way to the second harmonic's response belongs to the view.
 */
export function longView(arrivalS: number, impulse: Pick<SweepImpulse, 'shape' | 'tailS'>): TimeWindow {
  const { shape, tailS } = impulse;
  const after = Math.min(0.2, tailS);
  const lead = Math.max(LEAD_LEAST_S, Math.min(LEAD_PERIODS / shape.fromHz, 0.4 * harmonicLeadS(shape, 2)));
  return { fromS: arrivalS - lead, toS: arrivalS + after, riseS: lead - 0.001, fallS: after / 4 };
}

/** A windowed response on fine linear bins. */
export interface LinearResponse {
  spectrum: Spectrum;
  binHz: number;
  curve: PowerCurve;
  /** Sum of squares of the window, samples. */
  windowEnergy: number;
  rateHz: number;
  impulse: SweepImpulse;
}

/** Spectrum of the impulse response seen through `window`, phase counted from `originS`. */
export function linearResponse(impulse: SweepImpulse, window: TimeWindow, originS: number): LinearResponse {
  const stretch = windowed(impulse, window);
  // Bins four times finer than the window resolves: then a straight line between them is true to 0.02 dB.
  const size = powerOfTwoFrom(4 * stretch.samples.length);
  const spectrum = spectrumAbout(stretch, originS, impulse.rateHz, size);
  const binHz = impulse.rateHz / size;
  return {
    spectrum,
    binHz,
    curve: powerCurve(spectrum, binHz),
    windowEnergy: stretch.energy,
    rateHz: impulse.rateHz,
    impulse,
  };
}

/** Width over which the sweep's own power is averaged, octaves: its bins ripple near the ends. */
const PLAYED_OCTAVES = 0.03;

/**
 * Power that the background puts into the windowed response at `fHz`, in the unit of |H|^2.
 *
 * Density times rate times window energy over the played power: noise is divided by the sweep like everything else.
 *
 * @param order  harmonic order: the noise at `order` times `fHz`, divided by the sweep there
 */
export function noisePower(
  response: Pick<LinearResponse, 'windowEnergy' | 'rateHz' | 'impulse'>,
  noise: NoiseDensity,
  fHz: number,
  octaves = 1 / 12,
): number {
  const played = meanPower(response.impulse.played, fHz, PLAYED_OCTAVES);
  if (played <= 0) return Number.MAX_VALUE;
  const density = densityBetween(noise, fHz * 2 ** (-octaves / 2), fHz * 2 ** (octaves / 2));
  return (density * response.rateHz * response.windowEnergy) / played;
}

/** Range in which the sweep itself can be trusted, Hz. */
export function trustedRange(impulse: SweepImpulse): { lowHz: number; highHz: number } {
  const { shape, toHz } = impulse;
  const low = (shape.fadeInS ?? 0) > 0 ? 1.2 : 1.5;
  return { lowHz: shape.fromHz * low, highHz: Math.min(toHz, shape.toHz / 1.2) };
}

/** Response, phase, noise and signal-to-noise on a grid. */
export interface GridResponse {
  fHz: number[];
  /** Mean |H|^2 over the smoothing width, noise included. */
  power: number[];
  /** Complex response at the grid frequency itself. */
  re: number[];
  im: number[];
  /** Noise in `power`; null when the background is not known. */
  noise: (number | null)[];
  trusted: boolean[];
}

export function gridResponse(
  response: LinearResponse,
  fHz: number[],
  smoothOctaves: number,
  noise: NoiseDensity | null,
): GridResponse {
  const { lowHz, highHz } = trustedRange(response.impulse);
  const { re, im } = response.spectrum;
  const grid: GridResponse = { fHz, power: [], re: [], im: [], noise: [], trusted: [] };
  for (const f of fHz) {
    const at = Math.min(f / response.binHz, re.length - 1.001);
    const k = Math.floor(at);
    const part = at - k;
    grid.re.push(re[k] + part * (re[k + 1] - re[k]));
    grid.im.push(im[k] + part * (im[k + 1] - im[k]));
    grid.power.push(meanPower(response.curve, f, smoothOctaves));
    grid.noise.push(noise ? noisePower(response, noise, f, Math.max(smoothOctaves, 1 / 12)) : null);
    grid.trusted.push(f >= lowHz * 0.9999 && f <= highHz * 1.0001);
  }
  return grid;
}

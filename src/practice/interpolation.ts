// Sound between the samples: windowed-sinc interpolation at any position, and the change between a rate and its double.

/** Modified Bessel function of the first kind, order 0, by its power series. */
export function besselI0(x: number): number {
  let term = 1;
  let total = 1;
  for (let k = 1; term > 1e-17 * total; k++) {
    term *= (x / (2 * k)) ** 2;
    total += term;
  }
  return total;
}

/** Half the number of input samples each output leans on. */
export const HALF_TAPS = 48;
const KAISER_BETA = 9;
const besselAtBeta = besselI0(KAISER_BETA);

/**
 * Continuous low-pass kernel at `u` input samples from its centre: sinc of bandwidth `cutoff` under a Kaiser window.
 *
 * @param cutoff  1 passes up to half the input's rate, less for a slower output
 * Source: J. F. Kaiser, R. W. Schafer, On the use of the I0-sinh window, IEEE Trans. ASSP-28, 1980.
 */
export function kernelAt(u: number, cutoff: number): number {
  const edge = u / HALF_TAPS;
  if (Math.abs(edge) >= 1) return 0;
  const x = Math.PI * u * cutoff;
  const sinc = Math.abs(x) < 1e-9 ? 1 : Math.sin(x) / x;
  return (cutoff * sinc * besselI0(KAISER_BETA * Math.sqrt(1 - edge * edge))) / besselAtBeta;
}

const PHASES = 2048;
const kernelTables = new Map<number, Float64Array>();

/** Rows of kernel values, one for each of PHASES + 1 fractions of a sample. */
function kernelTable(cutoff: number): Float64Array {
  let table = kernelTables.get(cutoff);
  if (!table) {
    const taps = 2 * HALF_TAPS;
    table = new Float64Array((PHASES + 1) * taps);
    for (let p = 0; p <= PHASES; p++) {
      for (let k = 0; k < taps; k++) table[p * taps + k] = kernelAt(k - HALF_TAPS + 1 - p / PHASES, cutoff);
    }
    kernelTables.set(cutoff, table);
  }
  return table;
}

/**
 * The signal at positions `first + n * step`, n = 0 .. count - 1; 0 outside it.
 *
 * @param signal  any unit; not changed
 * @param first   position of the first result in samples of the signal; may lie outside
 * @param step    > 0, samples of the signal per sample of the result
 * Accuracy: within 1e-5 of the peak up to 0.45 of the rate (interpolation.test.ts)
 */
export function resampled(signal: Float64Array, first: number, step: number, count: number): Float64Array {
  const cutoff = step > 1.001 ? 0.97 / step : 1;
  const table = kernelTable(cutoff);
  const taps = 2 * HALF_TAPS;
  const out = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    const at = first + n * step;
    const base = Math.floor(at);
    const from = base - HALF_TAPS + 1;
    if (from + taps <= 0 || from >= signal.length) continue;
    const phase = (at - base) * PHASES;
    const row = Math.floor(phase);
    const blend = phase - row;
    const a = row * taps;
    const b = Math.min(row + 1, PHASES) * taps;
    let low = 0;
    let high = 0;
    const kFrom = Math.max(0, -from);
    const kTo = Math.min(taps, signal.length - from);
    for (let k = kFrom; k < kTo; k++) {
      const x = signal[from + k];
      low += x * table[a + k];
      high += x * table[b + k];
    }
    out[n] = low + blend * (high - low);
  }
  return out;
}

/** Adds a band-limited pulse of the given area at a fractional position. */
export function addPulse(target: Float64Array, position: number, gain: number): void {
  const base = Math.floor(position);
  for (let k = base - HALF_TAPS + 1; k <= base + HALF_TAPS; k++) {
    if (k >= 0 && k < target.length) target[k] += gain * kernelAt(k - position, 1);
  }
}

/** Kernel half a sample, one and a half, two and a half ... from its centre: what stands between two samples. */
const halfway = Float64Array.from({ length: HALF_TAPS }, (_, k) => kernelAt(k + 0.5, 1));

/** Value halfway between samples n and n + 1, for every n. */
function betweenSamples(signal: Float64Array): Float64Array {
  const padded = new Float64Array(signal.length + 2 * HALF_TAPS);
  padded.set(signal, HALF_TAPS);
  const out = new Float64Array(signal.length);
  for (let n = 0; n < out.length; n++) {
    const left = n + HALF_TAPS;
    let total = 0;
    for (let k = 0; k < HALF_TAPS; k++) total += halfway[k] * (padded[left - k] + padded[left + 1 + k]);
    out[n] = total;
  }
  return out;
}

/** The signal at twice its rate: sample n stands at 2n. */
export function doubledRate(signal: Float64Array): Float64Array {
  const between = betweenSamples(signal);
  const out = new Float64Array(2 * signal.length);
  for (let n = 0; n < signal.length; n++) {
    out[2 * n] = signal[n];
    out[2 * n + 1] = between[n];
  }
  return out;
}

/** The signal at half its rate after the same half-band filter: sample 2n becomes n. Nothing is delayed. */
export function halvedRate(signal: Float64Array): Float64Array {
  const count = Math.floor(signal.length / 2);
  const odd = new Float64Array(count + 1);
  for (let n = 0; n < count; n++) odd[n + 1] = signal[2 * n + 1];
  const between = betweenSamples(odd);
  return Float64Array.from({ length: count }, (_, n) => 0.5 * (signal[2 * n] + between[n]));
}

/** Response at `fHz` of going up to `2 * rateHz` and back down: real, near 1 up to 0.45 of `rateHz`. */
export function rateChangeResponse(fHz: number, rateHz: number): number {
  let total = 0.5;
  for (let k = 0; k < HALF_TAPS; k++) total += halfway[k] * Math.cos((Math.PI * fHz * (2 * k + 1)) / rateHz);
  return total * total;
}

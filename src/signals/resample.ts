// Sound at other instants: windowed-sinc interpolation of a band-limited signal.

/** Taps at equal rates; a lower target rate widens the kernel to keep its cut-off below half of it. */
const TAPS = 64;
const KAISER_BETA = 9;
const PHASES = 1024;

interface Kernel {
  halfTaps: number;
  table: Float64Array;
}

const kernels = new Map<string, Kernel>();

function besselI0(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; k < 60 && term > 1e-17 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

/** Kernel values at 1/1024 sample spacing, each row one phase, plus one row so that rows can be interpolated. */
function kernelFor(cutoff: number): Kernel {
  const key = cutoff.toFixed(9);
  const known = kernels.get(key);
  if (known) return known;
  const halfTaps = Math.ceil(TAPS / 2 / cutoff);
  const width = 2 * halfTaps;
  const table = new Float64Array((PHASES + 1) * width);
  const scale = 1 / besselI0(KAISER_BETA);
  for (let phase = 0; phase <= PHASES; phase++) {
    for (let tap = 0; tap < width; tap++) {
      const t = tap - halfTaps + 1 - phase / PHASES;
      const edge = t / halfTaps;
      const window = Math.abs(edge) < 1 ? besselI0(KAISER_BETA * Math.sqrt(1 - edge * edge)) * scale : 0;
      const x = Math.PI * t * cutoff;
      table[phase * width + tap] = cutoff * window * (x === 0 ? 1 : Math.sin(x) / x);
    }
  }
  const kernel = { halfTaps, table };
  if (kernels.size > 8) kernels.clear();
  kernels.set(key, kernel);
  return kernel;
}

/**
 * `count` samples of a signal at positions `first + step * i` of its own sample grid.
 *
 * @param signal  samples; 0 outside
 * @param step    distance of the results in samples of the signal, 0.05 .. 20; above 1 the band is cut to half the new rate
 * @returns length `count`, same unit
 * Accuracy: -90 dB of the signal up to 0.45 of the lower rate (resample.test.ts)
 * Source: J. O. Smith, P. Gossett, A flexible sampling-rate conversion method, ICASSP 1984; J. F. Kaiser, 1974 (window).
 */
export function resampled(signal: Float64Array, first: number, step: number, count: number): Float64Array {
  if (!(step >= 0.05 && step <= 20)) throw new RangeError(`step must be 0.05..20, got ${step}`);
  const { halfTaps, table } = kernelFor(Math.min(1, 1 / step));
  const width = 2 * halfTaps;
  const out = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const position = first + step * i;
    const whole = Math.floor(position);
    const phase = (position - whole) * PHASES;
    const row = Math.floor(phase);
    const part = phase - row;
    const near = row * width;
    const far = near + width;
    const start = whole - halfTaps + 1;
    const from = Math.max(0, -start);
    const to = Math.min(width, signal.length - start);
    let one = 0;
    let two = 0;
    for (let tap = from; tap < to; tap++) {
      const x = signal[start + tap];
      one += x * table[near + tap];
      two += x * table[far + tap];
    }
    out[i] = one + part * (two - one);
  }
  return out;
}

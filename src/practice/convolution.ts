// Convolution of long sounds with long impulse responses, with a transform of the practice bay's own.

interface Table {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
}

const tables = new Map<number, Table>();

function tableFor(size: number): Table {
  let table = tables.get(size);
  if (!table) {
    table = { cos: new Float64Array(size / 2), sin: new Float64Array(size / 2) };
    for (let k = 0; k < size / 2; k++) {
      table.cos[k] = Math.cos((2 * Math.PI * k) / size);
      table.sin[k] = Math.sin((2 * Math.PI * k) / size);
    }
    tables.set(size, table);
  }
  return table;
}

/**
 * Forward transform in place, natural order in, bit-reversed order out (decimation in frequency, radix 2).
 *
 * Leaving the order reversed saves both permutations: spectra are only multiplied, bin by bin, before going back.
 * Source: W. M. Gentleman, G. Sande, Fast Fourier transforms for fun and profit, AFIPS 1966.
 */
export function forwardReversed(re: Float64Array, im: Float64Array): void {
  const size = re.length;
  const { cos, sin } = tableFor(size);
  for (let span = size >> 1, stride = 1; span >= 1; span >>= 1, stride <<= 1) {
    for (let start = 0; start < size; start += 2 * span) {
      for (let k = 0, t = 0; k < span; k++, t += stride) {
        const i = start + k;
        const j = i + span;
        const ar = re[i];
        const ai = im[i];
        const dr = ar - re[j];
        const di = ai - im[j];
        re[i] = ar + re[j];
        im[i] = ai + im[j];
        re[j] = dr * cos[t] + di * sin[t];
        im[j] = di * cos[t] - dr * sin[t];
      }
    }
  }
}

/** Inverse of `forwardReversed`, in place, scaled by 1 / N (decimation in time, Cooley and Tukey 1965). */
export function inverseReversed(re: Float64Array, im: Float64Array): void {
  const size = re.length;
  const { cos, sin } = tableFor(size);
  for (let span = 1, stride = size >> 1; span < size; span <<= 1, stride >>= 1) {
    for (let start = 0; start < size; start += 2 * span) {
      for (let k = 0, t = 0; k < span; k++, t += stride) {
        const i = start + k;
        const j = i + span;
        const br = re[j] * cos[t] - im[j] * sin[t];
        const bi = im[j] * cos[t] + re[j] * sin[t];
        re[j] = re[i] - br;
        im[j] = im[i] - bi;
        re[i] += br;
        im[i] += bi;
      }
    }
  }
  for (let n = 0; n < size; n++) {
    re[n] /= size;
    im[n] /= size;
  }
}

/** Adds `signal` convolved with `response` to `target`, its first sample at `target[offset]` (may be negative). */
export function addConvolved(target: Float64Array, signal: Float64Array, response: Float64Array, offset = 0): void {
  let size = 1024;
  while (size < 2 * response.length) size *= 2;
  const block = size - response.length + 1;
  const hr = new Float64Array(size);
  const hi = new Float64Array(size);
  hr.set(response);
  forwardReversed(hr, hi);
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  // Two blocks go at once, one as the real and one as the imaginary part: the response is real, so they stay apart.
  const filled = blocksWithSound(signal, block);
  for (let pair = 0; pair < filled.length; pair += 2) {
    const first = filled[pair];
    const second = pair + 1 < filled.length ? filled[pair + 1] : -1;
    re.fill(0);
    im.fill(0);
    re.set(signal.subarray(first, first + block));
    if (second >= 0) im.set(signal.subarray(second, second + block));
    forwardReversed(re, im);
    for (let k = 0; k < size; k++) {
      const r = re[k] * hr[k] - im[k] * hi[k];
      im[k] = re[k] * hi[k] + im[k] * hr[k];
      re[k] = r;
    }
    inverseReversed(re, im);
    addAt(target, re, first + offset);
    if (second >= 0) addAt(target, im, second + offset);
  }
}

function blocksWithSound(signal: Float64Array, block: number): number[] {
  const starts: number[] = [];
  for (let start = 0; start < signal.length; start += block) {
    const stop = Math.min(signal.length, start + block);
    for (let n = start; n < stop; n++) {
      if (signal[n] !== 0) {
        starts.push(start);
        break;
      }
    }
  }
  return starts;
}

/** Adds `source` to `target` from `target[offset]` on; what falls outside is dropped. */
export function addAt(target: Float64Array, source: Float64Array, offset: number, gain = 1): void {
  const stop = Math.min(source.length, target.length - offset);
  for (let n = Math.max(0, -offset); n < stop; n++) target[offset + n] += gain * source[n];
}

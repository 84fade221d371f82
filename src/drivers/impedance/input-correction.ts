// Inputs of unlike gain: what they add of their own, taken out of what they recorded.
import type { DividerResponse } from './divider-response.ts';

/** The response of the divider itself: what the inputs add is divided out. */
export function correctedBy(response: DividerResponse, inputs: DividerResponse): DividerResponse {
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

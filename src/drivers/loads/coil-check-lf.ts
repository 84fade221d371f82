// Whether the two coils of one driver help or fight each other.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';

/** `unclear` lies between: measure again with the cone free. */
export type CoilPairVerdict = 'aiding' | 'opposing' | 'unclear';

/**
 * Inductance of both coils in series over that of one: on one former up to 4 when they aid, nearly 0 when they oppose.
 *
 * @param oneCoilMh above 0; @param pairMh 0 or more, both at the same frequency with the cone free
 * Source: coupled coils, L = L1 + L2 +- 2M; limits 2.6 and 1.4 leave room for loose coupling.
 */
export function coilCheckLf(given: { oneCoilMh: number; pairMh: number }): { ratio: number; verdict: CoilPairVerdict } {
  const ratio = given.pairMh / given.oneCoilMh;
  return { ratio, verdict: ratio > 2.6 ? 'aiding' : ratio < 1.4 ? 'opposing' : 'unclear' };
}

export const coilCheckLfCalculation = calculation({
  name: 'coilCheckLf',
  about: 'whether two coils on one former aid or oppose each other',
  caution: 'Amplifier unplugged; opposing coils burn without moving the cone.',
  inputs: { oneCoilMh: number('mH', { above: 0 }), pairMh: number('mH', { min: 0 }) },
  answer: (values) => success(coilCheckLf(values)),
});

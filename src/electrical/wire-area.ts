// The size of a wire by its gauge number.
import { calculation } from '../base/calculation.ts';
import { number } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';

/**
 * Diameter and area of a solid wire of an American gauge: d = 0.127 mm * 92^((36 - n) / 39).
 *
 * The metal inside a jacket that carries the number may be less; that is what `sizeFactor` elsewhere is for.
 *
 * @param awg gauge number, -3 .. 40; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3
 * Source: ASTM B258.
 * @example wireArea({ awg: -3 }) // { diameterMm: 11.684, areaMm2: 107.219 }
 */
export function wireArea({ awg }: { awg: number }): { diameterMm: number; areaMm2: number } {
  const diameterMm = 0.127 * 92 ** ((36 - awg) / 39);
  return { diameterMm, areaMm2: (Math.PI / 4) * diameterMm ** 2 };
}

/**
 * The gauge whose wire comes nearest to an area, by ratio; -3 .. 40.
 *
 * @param areaMm2 above 0
 * Source: the inverse of ASTM B258's d = 0.127 mm * 92^((36 - n) / 39), to the nearest whole number.
 * @example nearestGauge(20) // 4
 */
export function nearestGauge(areaMm2: number): number {
  const diameterMm = Math.sqrt((4 * areaMm2) / Math.PI);
  const awg = 36 - (39 * Math.log(diameterMm / 0.127)) / Math.log(92);
  return Math.min(40, Math.max(-3, Math.round(awg))) + 0;
}

export const wireAreaCalculation = calculation({
  name: 'wireArea',
  about: 'diameter and area of a wire of an American gauge (1/0 is 0, 4/0 is -3)',
  inputs: { awg: number('', { min: -3, max: 40 }) },
  answer: (values) => success(wireArea(values)),
});

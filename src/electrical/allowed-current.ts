// The current a cable may carry where it lies.
import { calculation } from '../base/calculation.ts';
import { choice, number, orElse } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';
import { type Conductor, conductorFrom, conductorInputs, conductorMaterials, conductorSize } from './conductor.ts';

/** How a cable lies, and what that leaves of its current: an assumption. */
export const cableCovers = { open: 1, 'under-trim': 0.85, 'in-foam': 0.5 } as const;

export type CableCover = keyof typeof cableCovers;

/** What conductors loaded together in one bundle may carry, by their number; nine and more share the last figure. */
const bundleFactors = [1, 0.8, 0.7, 0.65, 0.6, 0.57, 0.54, 0.52, 0.5];

export interface AllowedCurrent {
  /** One copper cable in still air at 40 C with insulation for 105 C. */
  baseA: number;
  kTemp: number;
  kBundle: number;
  kMaterial: number;
  kCover: number;
  allowedA: number;
}

/**
 * Allowed current of a cable: 17 area^0.65 A, times factors for temperature, bundle, metal and cover.
 *
 * Guidance, on the careful side; a figure of the cable's maker for the same conditions replaces it, and of that and a local
 * code the lower wins.
 *
 * @param cable.areaMm2     above 0, the metal that is there
 * @param place.insulationC -60 .. 250: PVC 85, cross-linked 105 or 125, silicone 150
 * @param place.ambientC    -60 .. 250: cabin and boot 50, under a dark carpet 60, engine bay away from exhaust 70
 * @param place.bundled     conductors loaded together, whole, 1 or more
 * @returns refused as `no-solution` where it is as hot around the cable as its insulation stands
 * Source: rise of temperature with the square of current; IEC 60364-5-52 for bundles; the base figure is an assumption.
 */
export function allowedCurrent(
  cable: Pick<Conductor, 'areaMm2' | 'material'>,
  place: { insulationC: number; ambientC: number; bundled: number; cover: CableCover },
): Result<AllowedCurrent> {
  const { insulationC, ambientC, bundled, cover } = place;
  if (ambientC >= insulationC) {
    const message = `Insulation for ${insulationC} C carries nothing where it is ${ambientC} C.`;
    return refused('no-solution', 'ambientC', message, 'Route elsewhere, or take a cable with better insulation.');
  }
  const baseA = 17 * cable.areaMm2 ** 0.65;
  const kTemp = Math.sqrt((insulationC - ambientC) / 65);
  const kBundle = bundleFactors[Math.min(bundled, bundleFactors.length) - 1];
  const kMaterial = Math.sqrt(conductorMaterials.copper.rho20 / conductorMaterials[cable.material].rho20);
  const kCover = cableCovers[cover];
  return success({ baseA, kTemp, kBundle, kMaterial, kCover, allowedA: baseA * kTemp * kBundle * kMaterial * kCover });
}

const { tempC: _, ...sizeInputs } = conductorInputs;

export const allowedCurrentCalculation = calculation({
  name: 'allowedCurrent',
  about: 'current a cable may carry where it lies (guidance; a maker or a local code may say less)',
  caution: 'The fuse is never larger than what the cable behind it may carry.',
  inputs: {
    ...sizeInputs,
    insulationC: orElse(number('C', { min: -60, max: 250 }), 105),
    ambientC: orElse(number('C', { min: -60, max: 250 }), 40),
    bundled: orElse(number('', { min: 1, whole: true }), 1),
    cover: orElse(choice(Object.keys(cableCovers) as CableCover[]), 'open'),
  },
  eitherOf: [conductorSize],
  answer({ insulationC, ambientC, bundled, cover, ...size }) {
    const conductor = conductorFrom(size);
    return conductor.ok ? allowedCurrent(conductor.value, { insulationC, ambientC, bundled, cover }) : conductor;
  },
});

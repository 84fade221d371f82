// Low-pass prototypes of the crossover families: what each section's own frequency and Q are, fc being 1.
import { type BesselNormalisation, besselPrototype } from './bessel.ts';
import type { AnalogSection } from './sections.ts';

/**
 * Butterworth low-pass of order `order`: -3.01 dB at 1.
 *
 * Poles stand evenly on the unit circle: q_k = 1 / (2 sin(pi (2k - 1) / (2n))); odd orders have one real pole.
 *
 * Source: S. Butterworth, On the Theory of Filter Amplifiers, Wireless Engineer 7, 1930, 536-541.
 */
function butterworthPrototype(order: number): AnalogSection[] {
  const sections: AnalogSection[] = [];
  for (let k = 1; k <= Math.floor(order / 2); k++) {
    sections.push({ w0: 1, q: 1 / (2 * Math.sin((Math.PI * (2 * k - 1)) / (2 * order))) });
  }
  if (order % 2 === 1) sections.push({ w0: 1, q: null });
  return sections;
}

/**
 * Linkwitz-Riley low-pass: Butterworth of half the order twice, -6.02 dB at 1.
 *
 * Two equal real poles are one section with q 0.5.
 *
 * Source: S. H. Linkwitz, Active Crossover Networks for Noncoincident Drivers, J. Audio Eng. Soc. 24(1), 1976, 2-8.
 */
function linkwitzRileyPrototype(order: number): AnalogSection[] {
  const sections: AnalogSection[] = [];
  for (const section of butterworthPrototype(order / 2)) {
    if (section.q === null) sections.push({ w0: 1, q: 0.5 });
    else sections.push(section, section);
  }
  return sections;
}

export type CrossoverFamily = 'butterworth' | 'linkwitz-riley' | 'bessel';

/** A crossover as the plan, the processor and the contract write it; `normalisation` matters to Bessel only. */
export interface Crossover {
  family: CrossoverFamily;
  order: number;
  fHz: number;
  normalisation?: BesselNormalisation | undefined;
}

/** Orders each family comes in. */
export const CROSSOVER_ORDERS: Readonly<Record<CrossoverFamily, readonly number[]>> = {
  butterworth: [1, 2, 3, 4, 5, 6, 7, 8],
  'linkwitz-riley': [2, 4, 6, 8],
  bessel: [1, 2, 3, 4, 5, 6, 7, 8],
};

/**
 * Sections of the low-pass prototype of a crossover, for fc = 1.
 *
 * @param crossover  family, order and (Bessel) normalisation, "magnitude" when absent; `fHz` plays no part
 * @returns sections whose product is the prototype; the high-pass is the same with s replaced by 1/s
 * @throws RangeError  a family, order or normalisation that does not exist, naming those that do
 */
export function crossoverPrototype(
  crossover: Pick<Crossover, 'family' | 'order' | 'normalisation'>,
): readonly AnalogSection[] {
  const { family, order, normalisation = 'magnitude' } = crossover;
  if (!Object.hasOwn(CROSSOVER_ORDERS, family)) {
    throw new RangeError(`family must be one of ${Object.keys(CROSSOVER_ORDERS).join(', ')}, got ${family}`);
  }
  if (!CROSSOVER_ORDERS[family].includes(order)) {
    throw new RangeError(`order of ${family} must be one of ${CROSSOVER_ORDERS[family].join(', ')}, got ${order}`);
  }
  if (normalisation !== 'magnitude' && normalisation !== 'phase') {
    throw new RangeError(`normalisation must be magnitude or phase, got ${normalisation}`);
  }
  if (family === 'butterworth') return butterworthPrototype(order);
  if (family === 'linkwitz-riley') return linkwitzRileyPrototype(order);
  return besselPrototype(order, normalisation);
}

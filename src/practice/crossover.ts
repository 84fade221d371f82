// Crossover filters of the simulated processor: families and orders as sections.
import { highPass1, highPass2, lowPass1, lowPass2, type Section } from './sections.ts';

/** One edge of a channel's band. */
export interface CrossoverEdge {
  family: 'butterworth' | 'linkwitz-riley';
  /** 1 .. 8; Linkwitz-Riley only even. */
  order: number;
  /** -3.01 dB for Butterworth, -6.02 dB for Linkwitz-Riley. */
  fHz: number;
}

/** Both edges of a channel's band; an absent edge is open. */
export interface Crossover {
  highPass: CrossoverEdge | null;
  lowPass: CrossoverEdge | null;
}

/** Q of the second-order sections of a Butterworth filter; an odd order has one first-order section besides. */
function butterworthQ(order: number): number[] {
  const qs: number[] = [];
  for (let k = 1; k <= Math.floor(order / 2); k++) qs.push(1 / (2 * Math.sin((Math.PI * (2 * k - 1)) / (2 * order))));
  return qs;
}

function edgeSections(edge: CrossoverEdge, type: 'high' | 'low', rateHz: number): Section[] {
  const { family, order, fHz } = edge;
  const second = type === 'high' ? highPass2 : lowPass2;
  const first = type === 'high' ? highPass1 : lowPass1;
  if (family === 'linkwitz-riley') {
    if (order % 2 === 1) throw new RangeError(`a Linkwitz-Riley order is even, got ${order}`);
    const half: CrossoverEdge = { family: 'butterworth', order: order / 2, fHz };
    return [...edgeSections(half, type, rateHz), ...edgeSections(half, type, rateHz)];
  }
  const sections = butterworthQ(order).map((q) => second(fHz, q, rateHz));
  if (order % 2 === 1) sections.push(first(fHz, rateHz));
  return sections;
}

/**
 * Sections of a channel's crossover.
 *
 * @param crossover  corners in Hz, below rateHz / 2
 * @param rateHz     rate at which the sections run
 * @throws RangeError  an odd Linkwitz-Riley order
 * Source: S. Butterworth 1930; S. Linkwitz, J. Audio Eng. Soc. 24(1), 1976 (a Butterworth filter of half the order, twice).
 */
export function crossoverSections(crossover: Crossover, rateHz: number): Section[] {
  return [
    ...(crossover.highPass ? edgeSections(crossover.highPass, 'high', rateHz) : []),
    ...(crossover.lowPass ? edgeSections(crossover.lowPass, 'low', rateHz) : []),
  ];
}

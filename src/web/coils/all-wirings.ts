// Every way to join a few like coils, each shape once.
import type { Network } from '../../plan/signal-parts.ts';
import { wiringKey } from './wirings.ts';

/** More coils than this have more ways than a person would look at. */
export const coilsShownMax = 4;

type Shape = 'o' | { s: Shape[] } | { p: Shape[] };

/** Lists of shapes that together have `count` coils, none of them itself joined the same way. */
function partsOf(count: number, way: 's' | 'p', atMost: number): Shape[][] {
  if (count === 0) return [[]];
  const lists: Shape[][] = [];
  for (let size = Math.min(count, atMost); size >= 1; size--) {
    const shapes: Shape[] = size === 1 ? ['o'] : groupsOf(size, way === 's' ? 'p' : 's');
    for (const shape of shapes) for (const rest of partsOf(count - size, way, size)) lists.push([shape, ...rest]);
  }
  return lists;
}

function groupsOf(count: number, way: 's' | 'p'): Shape[] {
  return partsOf(count, way, count - 1).map((parts) => (way === 's' ? { s: parts } : { p: parts }));
}

/** Coils put into a shape in their order. */
function filled(shape: Shape, coils: string[]): Network {
  if (shape === 'o') return coils.shift() ?? '';
  return 's' in shape
    ? { s: shape.s.map((part) => filled(part, coils)) }
    : { p: shape.p.map((part) => filled(part, coils)) };
}

const shapeKey = (network: Network) => wiringKey(network).replaceAll(/[^\s()sp]+(?=[\s)]|$)/g, 'o');

/**
 * All series-parallel networks that use each coil once, coils taken as alike: 1, 2, 4 and 10 for 1 to 4 coils.
 *
 * @returns none above `coilsShownMax` coils
 * Source: recursion on the outermost joint; counts are OEIS A000084.
 */
export function allWirings(coils: readonly string[]): Network[] {
  if (coils.length === 0 || coils.length > coilsShownMax) return [];
  if (coils.length === 1) return [coils[0]];
  const seen = new Set<string>();
  return [...groupsOf(coils.length, 's'), ...groupsOf(coils.length, 'p')]
    .map((shape) => filled(shape, [...coils]))
    .filter((network) => {
      const key = shapeKey(network);
      return seen.has(key) ? false : seen.add(key) !== undefined;
    });
}

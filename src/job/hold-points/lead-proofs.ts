// What proved each lead, for the lead list.
import { type HoldPoint, isOpen } from './hold-points.ts';

/** By the id of the lead, what closed its hold point, in words. */
export function leadProofs(points: readonly HoldPoint[]): Map<string, string> {
  const closed = points.filter((point) => point.kind === 'lead-connected' && !isOpen(point));
  return new Map(closed.map(({ of, reason }) => [of.id, reason]));
}

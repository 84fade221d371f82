// What is said beside a drawn body: its covers and places, and what one cover hides.
import type { PlanLayout } from '../../charts/vehicle/layout.ts';
import { placesBehind } from '../../charts/vehicle/layout.ts';
import { listed } from '../plan/cover-words.ts';

/** `8 covers, 7 places` */
export const countsText = ({ covers, places }: PlanLayout): string =>
  `${covers.length} covers, ${places.length} places`;

/** A cover and what lies behind it, as one sentence; null where the plan has no such cover. */
export function coverSentence(layout: PlanLayout, id: string): { name: string; behind: string } | null {
  const cover = layout.covers.find((one) => one.id === id);
  if (cover === undefined) return null;
  const ids = placesBehind(layout, id);
  const names = layout.places.filter((place) => ids.includes(place.id)).map((place) => `${place.id} ${place.name}`);
  return { name: cover.name, behind: names.length === 0 ? 'No place behind it.' : `Behind it: ${listed(names)}.` };
}

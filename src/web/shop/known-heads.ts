// What jobs are called that this device has shown: a card that the shop cannot show now still goes by its number.
import type { JobView } from '../api-client.ts';

export interface KnownHead {
  number: string | null;
  vehicle: string;
}

const place = 'kickpanel.heads';
/** As many as a bench has in a season; the oldest go first. */
const most = 60;

function heads(): Record<string, KnownHead> {
  try {
    return JSON.parse(localStorage.getItem(place) ?? '{}') as Record<string, KnownHead>;
  } catch {
    return {};
  }
}

/** Keeps the number and the vehicle of a job, and nothing about its owner. @returns the same job */
export function rememberHead(view: JobView): JobView {
  const { id, number, name, vehicle } = view.job;
  const { [id]: _, ...others } = heads();
  const kept = [...Object.entries(others), [id, { number: number ?? null, vehicle: vehicle.name ?? name }]].slice(
    -most,
  );
  try {
    localStorage.setItem(place, JSON.stringify(Object.fromEntries(kept)));
  } catch {
    // Without room the card goes by its id.
  }
  return view;
}

/** What is known of a job; null where this device has never shown it. */
export const knownHead = (job: string): KnownHead | null => heads()[job] ?? null;

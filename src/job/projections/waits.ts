// What a job waits for, the nearest first: said so that a person knows what to do next.
import type { JobState } from './job-state.ts';

export interface Wait {
  /** States what is missing, as a fact. */
  code: 'vehicle-missing' | 'track-missing' | 'take-missing' | 'covers-open' | 'take-as-driven-missing';
  message: string;
  about?: string;
}

/** Everything that is missing as far as the entries tell. */
export function waitsOf(state: JobState): Wait[] {
  if (state.purpose === 'shop') return [];
  const waits: Wait[] = [];
  const open = state.covers.filter(({ state: now }) => now !== 'fastened').map(({ cover }) => cover);
  const kept = state.takes.filter(({ kept }) => kept);
  const asDriven = kept.some(({ covers }) => covers.every(({ state: then }) => then === 'fastened'));
  if (state.vehicle.bodyType === undefined) {
    waits.push({ code: 'vehicle-missing', message: 'Start with the vehicle in front of you: choose its body.' });
  }
  if (state.tracks.length === 0 && kept.length === 0) {
    waits.push({ code: 'track-missing', message: 'Make the test track that is to be played.' });
  }
  if (kept.length === 0) waits.push({ code: 'take-missing', message: 'Record the first take: the car as it came in.' });
  if (open.length > 0) {
    const [verb, pronoun] = open.length === 1 ? ['is', 'it'] : ['are', 'them'];
    const message = `${open.join(', ')} ${verb} not fastened: close ${pronoun} before the last take.`;
    waits.push({ code: 'covers-open', message, about: open.join(' ') });
  }
  if (kept.length > 0 && !asDriven) {
    const message = 'Every take so far was recorded with a cover open: record one of the car as it is driven.';
    waits.push({ code: 'take-as-driven-missing', message });
  }
  return waits;
}

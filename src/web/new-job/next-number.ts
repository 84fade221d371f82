// The number of the next job card.
import type { JobSummary } from '../api-client.ts';

/** The next number, as wide as the highest there is; none where the shop does not number its jobs. */
export function nextNumber(jobs: readonly Pick<JobSummary, 'number'>[]): string {
  const numbers = jobs.flatMap(({ number }) => (number !== undefined && /^\d{1,9}$/.test(number) ? [number] : []));
  if (numbers.length === 0) return jobs.length === 0 ? '0001' : '';
  const highest = numbers.reduce((most, number) => (Number(number) > Number(most) ? number : most));
  return String(Number(highest) + 1).padStart(highest.length, '0');
}

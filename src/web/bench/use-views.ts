// The newest jobs of the bench as they stand, asked for once the list is known and kept up to date with it.
import { useEffect, useReducer } from 'react';
import type { JobSummary, JobView } from '../api-client.ts';
import { askFor, known, onChanged } from '../shop/known-answers.ts';
import { rememberHead } from '../shop/known-heads.ts';
import { useShop } from '../shop/shop-context.ts';
import { jobResource } from '../shop/use-job.ts';

/** The list says of every job what is in its line; what is unproven is counted only for as many as a bench holds. */
const askedMost = 16;

/** @returns what is known of a job by its id, undefined as long as it is not */
export function useViews(jobs: readonly JobSummary[]): (job: string) => JobView | undefined {
  const { api } = useShop();
  const [, show] = useReducer((count: number) => count + 1, 0);
  const asked = jobs
    .slice(0, askedMost)
    .map(({ id }) => id)
    .join(' ');
  useEffect(() => {
    const ids = asked === '' ? [] : asked.split(' ');
    const ends = ids.map((id) => onChanged(jobResource(id), show));
    for (const id of ids) askFor(jobResource(id), () => api.job(id).then(rememberHead));
    return () => {
      for (const end of ends) end();
    };
  }, [api, asked]);
  return (job) => known(jobResource(job)) as JobView | undefined;
}

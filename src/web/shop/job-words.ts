// How a job is called.
import { vehicleBodies } from '../../charts/vehicle/bodies.ts';
import type { JobSummary, JobView } from '../api-client.ts';
import { dayText } from '../parts/times.ts';
import type { HeadProps } from '../shell/CardHead.tsx';
import { knownHead } from './known-heads.ts';

type Vehicle = JobView['job']['vehicle'];

export function bodyWords(bodyType: Vehicle['bodyType']): string {
  if (bodyType === undefined) return 'vehicle not described';
  return bodyType === 'other' ? 'no plan view' : vehicleBodies[bodyType].name;
}

export const jobNumber = (job: Pick<JobSummary, 'number' | 'id'>): string => job.number ?? job.id.slice(0, 4);

/** The head of a job's card. */
export function headOf(view: JobView | undefined, id: string): HeadProps {
  if (!view) {
    const known = knownHead(id);
    return {
      id: { name: 'Job', text: known?.number ?? id.slice(0, 4) },
      fields: known === null ? [] : [{ name: 'Vehicle', text: known.vehicle }],
    };
  }
  const { job, personal } = view;
  const owner = personal.owner?.value;
  return {
    id: { name: 'Job', text: jobNumber(job) },
    fields: [
      { name: 'Vehicle', text: job.vehicle.name ?? job.name },
      ...(owner ? [{ name: 'For', text: owner, wideOnly: true }] : []),
      ...(job.created ? [{ name: 'Since', text: dayText(job.created.when), wideOnly: true }] : []),
    ],
  };
}

const counts = [
  'No',
  'One',
  'Two',
  'Three',
  'Four',
  'Five',
  'Six',
  'Seven',
  'Eight',
  'Nine',
  'Ten',
  'Eleven',
  'Twelve',
];

/** `Six jobs`, `One job`, `37 jobs`: the first word of a sentence. */
export function countWords(count: number, one: string, many: string): string {
  return `${counts[count] ?? count} ${count === 1 ? one : many}`;
}

// `job list` and `job show JOB`.
import { jobSummaries, jobView } from '../../store/job-views.ts';
import { issuesOutcome, type JobPart, jobNamed } from './job-call.ts';
import { jobListText, jobText } from './job-text.ts';

export const listJobs: JobPart = {
  operands: [0, 0],
  usage: 'job list',
  async run({ workshop, open }) {
    const jobs = await jobSummaries(workshop);
    return { status: 0, answer: { dataFolder: open.folder, jobs }, text: (style) => jobListText(jobs, style) };
  },
};

export const showJob: JobPart = {
  operands: [1, 1],
  usage: 'job show JOB',
  async run({ operands, given, workshop }) {
    const job = await jobNamed(workshop, operands[0]);
    if (!job.ok) return issuesOutcome(...job.issues);
    const view = await jobView(workshop, job.value);
    if (view === null) throw new Error(`job ${job.value} must be there`);
    const { chain } = await workshop.load(job.value);
    const answer = given('entries') === undefined ? view : { ...view, entries: chain };
    return { status: 0, answer, text: (style) => jobText(view, style) };
  },
};

// The bench: a timetable. Stages are stations, a job is a line that has got this far.
import './bench.css';
import type { JobSummary } from '../api-client.ts';
import { waitsWords } from '../job-card/next-act.ts';
import { AwayHelp } from '../parts/AwayHelp.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { longDayText, whenText } from '../parts/times.ts';
import { useProofOf } from '../proof/use-proof.ts';
import { goTo } from '../router.ts';
import { Page } from '../shell/Page.tsx';
import { stageIndex, stageNames, stageOfView, stagesDone } from '../shell/stages.ts';
import { countWords, jobNumber } from '../shop/job-words.ts';
import { useResource } from '../shop/resource.ts';
import { useShop } from '../shop/shop-context.ts';
import { FirstRun } from './FirstRun.tsx';
import { type BenchLine, JobLine } from './JobLine.tsx';
import { OpenJobFile } from './OpenJobFile.tsx';
import { useViews } from './use-views.ts';

const newJob = {
  text: 'New job card',
  small: 'starts at Arrive',
  onPress: () => goTo({ page: 'new-job' }),
};

function benchSentence(jobs: readonly JobSummary[], now: Date): string {
  const [latest] = jobs;
  const touched = latest?.changedWhen
    ? ` ${jobNumber(latest)} was touched last, ${whenText(latest.changedWhen, now)}.`
    : '';
  return `${countWords(jobs.length, 'job', 'jobs')} on the bench.${touched}`;
}

const none: JobSummary[] = [];

/** What the list alone says that a job waits for. Before the first take it waits for that, whatever a take needs besides. */
function summaryWaits({ takes, waits }: JobSummary): string | null {
  return takes === 0 && waits !== null ? 'You: record the first take.' : waits;
}

export function Bench() {
  const { api } = useShop();
  const { value, error } = useResource('jobs', () => api.jobs());
  const now = new Date();
  const jobs = value ?? none;
  const viewOf = useViews(jobs);
  const proofOf = useProofOf();
  const lines: BenchLine[] = jobs.map((job) => {
    const view = viewOf(job.id);
    const proof = view === undefined ? null : (proofOf?.(view) ?? null);
    const points = proof?.stages ?? [];
    const done = view === undefined ? {} : stagesDone(view, points);
    const at = view === undefined ? stageIndex(job) : stageOfView(view, points);
    const waits = view === undefined ? summaryWaits(job) : waitsWords(view, proof);
    return { job, waits, at, done, open: proof?.open.length ?? 0 };
  });
  const groups: [string, BenchLine[]][] = [
    ['Your move', lines.filter(({ waits }) => waits !== null)],
    ['Nothing waits', lines.filter(({ waits }) => waits === null)],
  ];
  if (value?.length === 0 && !error) return <FirstRun />;
  const says = value
    ? benchSentence(jobs, now)
    : error
      ? 'The bench cannot be shown: the shop does not answer.'
      : 'Asking the shop for its jobs.';
  return (
    <Page
      name="bench"
      title="Bench"
      head={{ id: { text: 'Kickpanel' }, fields: [{ name: 'Bench', text: longDayText(now), wideOnly: true }] }}
      says={says}
      bar={{
        main: newJob,
        seconds: [{ text: 'Open a job file', onPress: () => document.getElementById('job-file')?.click() }],
      }}
    >
      <OpenJobFile />
      {error ? <ErrorCard error={error} safe={value ? 'What is shown is what it last said.' : ''} /> : null}
      {error?.unanswered && !value ? <AwayHelp /> : null}
      {jobs.length > 0 ? (
        <div className="jhead" aria-hidden="true">
          <span>Job</span>
          <span>Vehicle</span>
          <span className="line">
            {stageNames.map((name) => (
              <span key={name}>{name}</span>
            ))}
          </span>
          <span>Waits for</span>
          <span className="num">Touched</span>
        </div>
      ) : null}
      {groups
        .filter(([, list]) => list.length > 0)
        .map(([name, list]) => (
          <section key={name} aria-label={name}>
            <h2 className="grp">{name}</h2>
            {list.map((line) => (
              <JobLine key={line.job.id} {...line} now={now} />
            ))}
          </section>
        ))}
    </Page>
  );
}

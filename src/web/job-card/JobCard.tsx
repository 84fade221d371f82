// The job card: where the job stands on the loom, the car with its covers, what to do next.
import './job-card.css';
import type { JobView } from '../api-client.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Icon } from '../parts/Icon.tsx';
import { useCoversAsked } from '../plan/covers-asked.ts';
import { FastenAsked } from '../plan/FastenAsked.tsx';
import { vehiclePlan } from '../plan/vehicle-plan.ts';
import { useProof } from '../proof/use-proof.ts';
import { goTo } from '../router.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Heading, Page } from '../shell/Page.tsx';
import { stageOfView } from '../shell/stages.ts';
import { headOf } from '../shop/job-words.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { CoverFigure } from './CoverFigure.tsx';
import { DescribeVehicle } from './DescribeVehicle.tsx';
import { JobAway } from './JobAway.tsx';
import { LeadsDropping } from './LeadsDropping.tsx';
import { NotesOnCard } from './NotesOnCard.tsx';
import { cardSentence, nextAct } from './next-act.ts';
import { PlanOnCard } from './PlanOnCard.tsx';
import { ProofOnCard } from './ProofOnCard.tsx';
import { TakesOnCard } from './TakesOnCard.tsx';

export function JobCard({ id }: { id: string }) {
  const { value, error } = useJob(id);
  if (!value) return <JobAway job={id} error={error} />;
  return <Card view={value} />;
}

/** The first cover that is not fastened, to be pressed. */
function showOpenCover(): void {
  const button = document.querySelector<HTMLElement>('.co .cst:not([aria-label*=": fastened"])');
  button?.scrollIntoView({ block: 'center' });
  button?.focus();
}

function Card({ view }: { view: JobView }) {
  const { job } = view;
  const { wish, error } = useWish(job.id);
  const plan = vehiclePlan(job.vehicle);
  const covers = useCoversAsked(plan, job.covers, wish);
  const proof = useProof(view);
  const stage = stageOfView(view, proof?.stages ?? []);
  const { answer } = covers;
  const says = cardSentence(view, answer !== null, proof);
  const { to, why, ...next } = nextAct(view, proof);
  const main: MainAction =
    answer === null
      ? { ...next, onPress: () => (to.page === 'job' ? showOpenCover() : goTo(to)) }
      : { text: answer.text, small: answer.small, onPress: () => void covers.give() };
  return (
    <Page
      name="job"
      title={`Job ${job.number ?? job.name}`}
      head={headOf(view, job.id)}
      job={job.id}
      stage={stage}
      stageBig
      says={says}
      ownHeading
      bar={{
        undo: undoAct(job, wish),
        why: answer === null ? why : 'Press each cover that is off or rests. Asked once; every take keeps the answer.',
        seconds: [
          { text: 'Takes', onPress: () => goTo({ page: 'takes', job: job.id, compare: [] }) },
          { text: 'Live bands', onPress: () => goTo({ page: 'live', job: job.id }) },
        ],
        main,
      }}
    >
      <div className="top">
        <Heading>
          {says.split(/(?<=\.) /).map((sentence) => (
            // The space is for whoever hears it or copies it.
            <span key={sentence}>{sentence} </span>
          ))}
        </Heading>
        {plan ? (
          <>
            <LeadsDropping from={stage} />
            <p className="key" aria-hidden="true">
              {(['off', 'resting', 'fastened'] as const).map((state) => (
                <span className="cov" key={state}>
                  <Icon name={`cover-${state}`} />
                  {state}
                </span>
              ))}
            </p>
          </>
        ) : null}
      </div>
      {error ? <ErrorCard error={error} /> : null}
      {plan ? (
        <CoverFigure view={view} plan={plan} covers={covers} proof={proof} />
      ) : (
        <DescribeVehicle view={view} wish={wish} />
      )}
      <div className="below">
        <div className="card-work">
          <PlanOnCard view={view} />
          <ProofOnCard view={view} proof={proof} />
          <TakesOnCard view={view} />
        </div>
        <NotesOnCard view={view} wish={wish} />
      </div>
      <FastenAsked
        view={view}
        covers={covers}
        wish={wish}
        nameOf={(id) => plan?.layout.covers.find((cover) => cover.id === id)?.name ?? `Cover ${id}`}
      />
    </Page>
  );
}

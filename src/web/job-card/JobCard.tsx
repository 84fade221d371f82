// The job card: where the job stands on the loom, the car with its covers, what to do next.
import './job-card.css';
import type { JobView } from '../api-client.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Icon } from '../parts/Icon.tsx';
import { dayText } from '../parts/times.ts';
import { vehiclePlan } from '../plan/vehicle-plan.ts';
import { goTo } from '../router.ts';
import { Heading, Page } from '../shell/Page.tsx';
import { stageDays, stageOfView } from '../shell/stages.ts';
import { headOf } from '../shop/job-words.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { CoverFigure } from './CoverFigure.tsx';
import { DescribeVehicle } from './DescribeVehicle.tsx';
import { JobAway } from './JobAway.tsx';
import { LeadsDropping } from './LeadsDropping.tsx';
import { NotesOnCard } from './NotesOnCard.tsx';
import { cardSentence, nextAct } from './next-act.ts';
import { PlanOnCard } from './PlanOnCard.tsx';
import { TakesOnCard } from './TakesOnCard.tsx';

export function JobCard({ id }: { id: string }) {
  const { value, error } = useJob(id);
  if (!value) return <JobAway job={id} error={error} />;
  return <Card view={value} />;
}

function Card({ view }: { view: JobView }) {
  const { job, waits } = view;
  const { wish, error } = useWish(job.id);
  const plan = vehiclePlan(job.vehicle);
  const setCover = (cover: string, state: 'off' | 'resting' | 'fastened') => {
    // The first word about any cover settles them all: what was not touched is fastened.
    const others =
      job.covers.length > 0 ? [] : (plan?.layout.covers ?? []).filter(({ id }) => id !== cover).map(({ id }) => id);
    const covers = [{ cover, state }, ...others.map((other) => ({ cover: other, state: 'fastened' as const }))];
    void wish({ command: 'changeCovers', covers });
  };
  const undoable = job.undoable;
  const act = nextAct(view);
  return (
    <Page
      name="job"
      title={`Job ${job.number ?? job.name}`}
      head={headOf(view, job.id)}
      job={job.id}
      stage={stageOfView(view)}
      stageBig
      stageDays={stageDays(view).map((when) => (when === null ? null : dayText(when)))}
      says={cardSentence(view)}
      ownHeading
      bar={{
        undo: undoable && {
          says: undoable.says,
          onPress: () => void wish({ command: 'undo', entry: undoable.entry }),
        },
        why: waits.find(({ code }) => code !== 'track-missing')?.message,
        seconds: [
          { text: 'Takes', onPress: () => goTo({ page: 'takes', job: job.id, compare: [] }) },
          { text: 'Live bands', onPress: () => goTo({ page: 'live', job: job.id }) },
        ],
        main: { ...act, onPress: () => goTo({ page: 'take', job: job.id, place: null }) },
      }}
    >
      <div className="top">
        <Heading>
          {cardSentence(view)
            .split(/(?<=\.) /)
            .map((sentence) => (
              // The space is for whoever hears it or copies it.
              <span key={sentence}>{sentence} </span>
            ))}
        </Heading>
        <LeadsDropping from={stageOfView(view)} />
        <p className="key" aria-hidden="true">
          {(['off', 'resting', 'fastened'] as const).map((state) => (
            <span className="cov" key={state}>
              <Icon name={`cover-${state}`} />
              {state}
            </span>
          ))}
        </p>
      </div>
      {error ? <ErrorCard error={error} /> : null}
      {plan ? <CoverFigure view={view} plan={plan} onCover={setCover} /> : <DescribeVehicle view={view} wish={wish} />}
      <div className="below">
        <div className="card-work">
          <PlanOnCard view={view} />
          <TakesOnCard view={view} />
        </div>
        <NotesOnCard view={view} wish={wish} />
      </div>
    </Page>
  );
}

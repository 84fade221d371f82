// A take as it was read: verdict, curves, facts. One that only this browser has is read here and waits for the shop.
import './reading.css';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { useKeptTakes } from '../keep/outbox.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { vehiclePlan } from '../plan/vehicle-plan.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import { Page } from '../shell/Page.tsx';
import { useStage } from '../shell/use-stage.ts';
import { headOf } from '../shop/job-words.ts';
import { useMicrophones } from '../shop/microphones.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { KeptTakeScreen } from './KeptTakeScreen.tsx';
import { NotesOnTake } from './NotesOnTake.tsx';
import { ReadingPlots } from './ReadingPlots.tsx';
import { ReadingProgressBar } from './ReadingProgressBar.tsx';
import { type Take, useReading } from './reading-state.ts';
import { TakeFacts } from './TakeFacts.tsx';
import { NotSaid, Problems, Verdict } from './Verdict.tsx';
import { readingSentence } from './words.ts';

export function ReadingScreen({ job, take }: { job: string; take: string }) {
  const { value, error } = useJob(job);
  const stage = useStage(value);
  const kept = useKeptTakes().find(({ id }) => id === take) ?? null;
  const known = value?.job.takes.find((one) => one.take === take);
  if (value && known) return <TakeRead view={value} take={known} />;
  if (kept) return <KeptTakeScreen kept={kept} view={value} />;
  if (!value) return <JobAway job={job} error={error} />;
  return (
    <Page
      name="reading"
      title="Take"
      head={headOf(value, job)}
      job={job}
      stage={stage}
      says="There is no such take in this job."
      more="It may have been taken back. Undo on the job card brings it back."
      bar={{ main: { text: 'All takes', onPress: () => goTo({ page: 'takes', job, compare: [] }) } }}
    >
      {null}
    </Page>
  );
}

/** The number a take goes by in its job. */
export function takeNumber(view: JobView, take: string): string {
  return `T${view.job.takes.findIndex((one) => one.take === take) + 1}`;
}

/** The first place of the plan that has no kept take. */
function nextPlace(view: JobView): string | null {
  const heard = new Set(view.job.takes.filter(({ kept }) => kept).map(({ place }) => place));
  const places = vehiclePlan(view.job.vehicle)?.layout.places ?? [];
  return places.find(({ name }) => !heard.has(name))?.name ?? null;
}

function TakeRead({ view, take }: { view: JobView; take: Take }) {
  const style = useNumbers();
  const { value: microphones, error: noMicrophones } = useMicrophones();
  const progress = useReading(take, microphones ?? (noMicrophones ? [] : undefined));
  const { wish, error } = useWish(view.job.id);
  const stage = useStage(view);
  const job = view.job.id;
  const label = takeNumber(view, take.take);
  const track = view.job.tracks.find(({ track: sha256 }) => sha256 === take.track);
  const reading = progress.state === 'done' ? progress.reading : null;
  const next = nextPlace(view);
  const says =
    progress.state === 'reading'
      ? `Reading ${label}: ${progress.doing || 'starting'}.`
      : progress.state === 'failed'
        ? `${label} could not be read.`
        : readingSentence(progress.reading, style);
  const record = (place: string | null) => goTo({ page: 'take', job, place });
  return (
    <Page
      name="reading"
      title={`${label} ${take.name}`}
      head={headOf(view, job)}
      job={job}
      stage={stage}
      says={take.kept ? says : `Set aside. ${says}`}
      bar={{
        undo: undoAct(view.job, wish),
        why: next === null ? 'Every place of the plan has been heard.' : undefined,
        seconds: [
          {
            text: take.kept ? 'Set it aside' : 'Keep it after all',
            onPress: () => void wish({ command: 'noteTake', take: take.take, kept: !take.kept }),
          },
          { text: 'All takes', onPress: () => goTo({ page: 'takes', job, compare: [] }) },
        ],
        main:
          reading && !reading.quality.usable
            ? {
                text: 'Record it again',
                small: take.place ?? 'the same place',
                onPress: () => record(take.place ?? null),
              }
            : { text: 'Next take', small: next ?? 'of any place', onPress: () => record(next) },
      }}
    >
      <button
        type="button"
        className="unseen"
        data-key="back"
        tabIndex={-1}
        onClick={() => goTo({ page: 'takes', job, compare: [] })}
      >
        Back to all takes
      </button>
      {error ? <ErrorCard error={error} /> : null}
      {progress.state === 'failed' ? <ErrorCard error={progress.error} safe="The recording itself is kept." /> : null}
      <div className="rdg">
        <div>
          {progress.state === 'reading' ? <ReadingProgressBar share={progress.share} doing={progress.doing} /> : null}
          {reading ? <Problems reading={reading} /> : null}
          {progress.state === 'done' ? (
            <ReadingPlots
              reading={progress.reading}
              impulse={progress.impulse}
              subject={take.name}
              name={`${view.job.number ?? ''} ${label} ${take.name}`}
            />
          ) : null}
          {reading ? <NotSaid reading={reading} /> : null}
        </div>
        <div>
          {reading ? <Verdict reading={reading} /> : null}
          <TakeFacts
            take={{
              label: `${label}, ${take.name}`,
              when: take.when,
              who: take.who,
              track: track?.name ?? track?.kind ?? take.track.slice(0, 8),
              recorder: take.input?.label,
              covers: take.covers,
              calibration: take.level.reference === 'spl' ? 'dB SPL, calibrated' : 'relative, not calibrated',
            }}
            reading={reading}
          />
          <p className="file-link">
            <a href={`/api/recordings/${take.recording}`} download={`${label}.wav`}>
              The recording as it came in
            </a>
          </p>
          <NotesOnTake take={take} wish={wish} />
        </div>
      </div>
    </Page>
  );
}

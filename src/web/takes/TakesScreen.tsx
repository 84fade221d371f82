// All takes of a job, and those that are compared.
import './takes.css';
import { comparedMax } from '../../charts/reading/comparison-plot.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { useKeptTakes } from '../keep/outbox.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Finding } from '../parts/Finding.tsx';
import { takeNumber } from '../reading/ReadingScreen.tsx';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Link } from '../shell/Link.tsx';
import { Page } from '../shell/Page.tsx';
import { useStage } from '../shell/use-stage.ts';
import { countWords, headOf } from '../shop/job-words.ts';
import { useMicrophones } from '../shop/microphones.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { type Compared, Comparison, comparisonSentence } from './Comparison.tsx';
import { comparable } from './comparable.ts';
import { TakeRow } from './TakeRow.tsx';
import { readingOf, useReadings } from './use-readings.ts';

export function TakesScreen({ job, compare }: { job: string; compare: string[] }) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <Takes view={value} compare={compare} />;
}

function Takes({ view, compare }: { view: JobView; compare: string[] }) {
  const style = useNumbers();
  const { job } = view;
  const stage = useStage(view);
  const { wish, error } = useWish(job.id);
  const { value: microphones, error: noMicrophones } = useMicrophones();
  const newest = [...job.takes].reverse();
  const readings = useReadings(newest, microphones ?? (noMicrophones ? [] : undefined));
  const waiting = useKeptTakes().filter((kept) => kept.job === job.id);
  // In the order in which they were recorded, whichever was pressed first.
  const compared: Compared[] = job.takes
    .filter(({ take }) => compare.includes(take))
    .map((take) => ({ take, label: takeNumber(view, take.take), reading: readingOf(readings, take.take) }));
  const pick = (take: string) => {
    const without = compare.filter((one) => one !== take);
    const next = compare.includes(take) ? without : [...without, take].slice(-comparedMax);
    goTo({ page: 'takes', job: job.id, compare: next }, { replace: true });
  };
  const difference = comparisonSentence(compared, style);
  const says =
    job.takes.length === 0
      ? 'No take is here yet. Record the car as it came in.'
      : (difference ??
        (compared.length === 0
          ? `${countWords(job.takes.length, 'take', 'takes')}. Press two to lay them over each other.`
          : compared.length === 1
            ? `${compared[0].label} is chosen. Press another one to compare.`
            : `${countWords(compared.length, 'take lies', 'takes lie')} over each other.`));
  const pair = compared.length === 2 ? comparable(compared[0].take, compared[1].take) : null;
  const writeDown: MainAction = {
    text: 'Write it into the job',
    small: 'the comparison, in these words',
    onPress: () =>
      void wish({
        command: 'compareTakes',
        takes: compared.map(({ take }) => take.take),
        ...(difference === null ? {} : { note: difference }),
      }),
  };
  const record: MainAction = {
    ...(job.takes.length === 0
      ? { text: 'Record the first take', small: 'the car as it came in, half a minute' }
      : { text: 'Record a take', small: 'of any place' }),
    onPress: () => goTo({ page: 'take', job: job.id, place: null }),
  };
  return (
    <Page
      name="takes"
      title="Takes"
      head={headOf(view, job.id)}
      job={job.id}
      stage={stage}
      says={says}
      more={
        job.takes.length === 0 && waiting.length === 0
          ? 'A take is a recording, the track that played, and the state the car was in. What you do to the car is held against the first one. Here two takes are laid over each other, and the difference is put into words.'
          : undefined
      }
      bar={{
        undo: undoAct(job, wish),
        why: pair?.why,
        seconds: [
          { text: 'Back to the card', onPress: () => goTo({ page: 'job', job: job.id }) },
          ...(compare.length > 0
            ? [
                {
                  text: 'Compare others',
                  onPress: () => goTo({ page: 'takes', job: job.id, compare: [] }, { replace: true }),
                },
              ]
            : []),
        ],
        main: compared.length >= 2 ? writeDown : record,
      }}
    >
      <button
        type="button"
        className="unseen"
        data-key="back"
        tabIndex={-1}
        onClick={() => goTo({ page: 'job', job: job.id })}
      >
        Back to the card
      </button>
      {error ? <ErrorCard error={error} /> : null}
      {waiting.map((kept) => (
        <Finding
          key={kept.id}
          severity={kept.state === 'refused' ? 'stop' : 'note'}
          word={kept.state === 'refused' ? 'refused' : 'waits'}
          message={`${kept.take.name} is kept on this device${kept.state === 'refused' ? '; the shop does not take it.' : ' until the shop has it.'}`}
          action={
            <Link to={{ page: 'reading', job: job.id, take: kept.id }} className="btn">
              Look at it
            </Link>
          }
        />
      ))}
      <div className={`tg2${compared.length === 0 ? ' alone' : ''}`}>
        <div>
          {newest.length === 0 ? null : (
            <table className="tl">
              <thead>
                <tr>
                  <th scope="col">Take</th>
                  <th scope="col" className="wn">
                    When
                  </th>
                  <th scope="col">What played</th>
                  <th scope="col">Covers</th>
                  <th scope="col">The recording</th>
                </tr>
              </thead>
              <tbody>
                {newest.map((take) => {
                  const at = compared.findIndex((one) => one.take.take === take.take);
                  const part = at < 0 ? null : compared.length === 2 ? ['before', 'after'][at] : 'chosen';
                  return (
                    <TakeRow
                      key={take.take}
                      job={job.id}
                      take={take}
                      label={takeNumber(view, take.take)}
                      progress={readings[take.take]}
                      part={part}
                      onPick={() => pick(take.take)}
                    />
                  );
                })}
              </tbody>
            </table>
          )}
        </div>
        {compared.length === 0 ? null : (
          <div>
            <Comparison compared={compared} name={job.number ?? job.name} />
          </div>
        )}
      </div>
      {job.comparisons.length === 0 ? null : (
        <section className="compared" aria-label="Comparisons written down">
          <h2 className="h2s">Written into the job</h2>
          <ul>
            {job.comparisons.map(({ entry, takes, note, who }) => (
              <li key={entry}>
                <Link to={{ page: 'takes', job: job.id, compare: takes }}>
                  <b>{takes.map((take) => takeNumber(view, take)).join(' and ')}</b> {note ?? 'compared'}
                  <span className="quiet">{who}</span>
                </Link>
              </li>
            ))}
          </ul>
        </section>
      )}
    </Page>
  );
}

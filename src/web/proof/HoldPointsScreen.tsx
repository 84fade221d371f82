// What must be proven before it is hidden or handed over, behind which cover it lies, and evidence given in place.
import './proof.css';
import { useMemo, useState } from 'react';
import { isOpen } from '../../job/hold-points/hold-points.ts';
import { type ProofTest, shortestTests } from '../../job/hold-points/shortest-tests.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Icon } from '../parts/Icon.tsx';
import { PassedOver } from '../plan/PassedOver.tsx';
import { goTo } from '../router.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { stageNames } from '../shell/stages.ts';
import { countWords, headOf } from '../shop/job-words.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob, useWish } from '../shop/use-job.ts';
import { PointRow } from './PointRow.tsx';
import {
  coverName,
  coverSentence,
  minutesWords,
  openWords,
  type PointGroup,
  proofOf,
  proofSentence,
} from './proof-model.ts';
import { TestList } from './TestList.tsx';

interface HoldPointsScreenProps {
  job: string;
  /** One cover of the plan, where only what lies behind it is asked for. */
  cover: string | null;
}

export function HoldPointsScreen({ job, cover }: HoldPointsScreenProps) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <HoldPoints view={value} cover={cover} />;
}

/** Shows the place where evidence for a point is given. */
function showPoint(id: string | undefined): void {
  const row = document.querySelector<HTMLElement>(`[data-point="${CSS.escape(id ?? '')}"]`);
  row?.scrollIntoView({ block: 'center' });
  row?.querySelector<HTMLElement>('.tag button')?.focus();
}

/** The first test of the list, as far as a screen can begin it. */
function begin(test: ProofTest, job: string): MainAction {
  const clears = `clears ${countWords(test.clears.length, 'point', 'points').toLowerCase()}`;
  const small = `${clears}, ${minutesWords(test.minutes)}`;
  if (test.kind === 'near-walk') {
    return { text: test.name, small, onPress: () => goTo({ page: 'take', job, place: null }) };
  }
  if (test.kind === 'channel-walk') {
    return { text: test.name, small, onPress: () => goTo({ page: 'first-sound', job }) };
  }
  if (test.kind === 'meter' && test.clears.some((id) => id.startsWith('gain ') || id.endsWith(' ceiling'))) {
    return { text: 'Set the gains', small, onPress: () => goTo({ page: 'gains', job }) };
  }
  return { text: test.name, small, onPress: () => showPoint(test.clears[0]) };
}

function HoldPoints({ view, cover }: { view: JobView; cover: string | null }) {
  const proof = useMemo(() => proofOf(view), [view]);
  const { wish, busy, error } = useWish(view.job.id);
  const [giving, setGiving] = useState<string | null>(null);
  const job = view.job.id;
  const only = proof.groups.find((group) => cover !== null && group.cover?.cover === cover);
  const groups = only === undefined ? proof.groups : [only];
  const coverNames = new Map(proof.covers.map((one) => [one.cover, coverName(one)]));
  const shortest = only === undefined ? proof.shortest : shortestTests(only.points.filter(isOpen));
  const [first] = shortest.tests;
  const main: MainAction =
    proof.points.length === 0
      ? {
          text: 'Go to the plan',
          small: 'it opens hold points',
          onPress: () => goTo({ page: 'plan', job, part: null }),
        }
      : first === undefined
        ? { text: 'Back to the card', small: 'nothing is open', onPress: () => goTo({ page: 'job', job }) }
        : begin(first, job);
  return (
    <Page
      name="proof"
      title={`Hold points of job ${view.job.number ?? view.job.name}`}
      head={headOf(view, job)}
      job={job}
      stage={stageNames.indexOf('Refit')}
      says={only === undefined ? proofSentence(proof) : coverSentence(only)}
      bar={{
        undo: undoAct(view.job, wish),
        why: proof.points.length === 0 ? undefined : 'Only evidence closes a point; a later change opens it again.',
        seconds: [
          only === undefined
            ? { text: 'Gains', onPress: () => goTo({ page: 'gains', job }) }
            : { text: 'All hold points', onPress: () => goTo({ page: 'hold-points', job, cover: null }) },
        ],
        main,
      }}
    >
      {error ? <ErrorCard error={error} safe="What you typed is still here." /> : null}
      <div className="proof-two">
        <div className="groups">
          {groups.map((group) => (
            <Group
              key={group.title}
              view={view}
              group={group}
              coverNames={coverNames}
              giving={giving}
              busy={busy}
              onToggle={(key) => setGiving(giving === key ? null : key)}
              onGive={async (id, evidence) => {
                if (await wish({ command: 'giveEvidence', holdPoints: [id], evidence })) {
                  setGiving(null);
                  showPoint(id);
                }
              }}
            />
          ))}
        </div>
        {shortest.tests.length > 0 ? (
          <details className="shortest" open={matchMedia('(min-width: 901px)').matches}>
            <summary>
              <h2 className="h2s">
                The shortest list{' '}
                <small>
                  {countWords(shortest.tests.length, 'test clears', 'tests clear')} all that is open
                  {only === undefined ? '' : ' behind it'}
                </small>
              </h2>
            </summary>
            <TestList shortest={shortest} coverNames={coverNames} />
          </details>
        ) : null}
      </div>
    </Page>
  );
}

interface GroupProps {
  view: JobView;
  group: PointGroup;
  coverNames: ReadonlyMap<string, string>;
  giving: string | null;
  busy: boolean;
  onToggle: (key: string) => void;
  onGive: (id: string, evidence: Parameters<Parameters<typeof PointRow>[0]['onGive']>[0]) => void;
}

function Group({ view, group, coverNames, giving, busy, onToggle, onGive }: GroupProps) {
  const { cover, title, points, open } = group;
  return (
    <section className="group" aria-label={`${title}: ${openWords(open)}`}>
      <h2 className="h2s">
        {cover?.letter ? (
          <span className="ltr" aria-hidden="true">
            {cover.letter}
          </span>
        ) : null}
        {title} <small className={open > 0 ? 'unproven' : ''}>{openWords(open)}</small>
        {cover ? (
          <small className="cov">
            <Icon name={`cover-${cover.state}`} />
            {cover.state === 'unknown' ? 'as the car came' : cover.state}
          </small>
        ) : null}
      </h2>
      {cover?.passedOver ? <PassedOver over={cover.passedOver} /> : null}
      <ul className="points">
        {points.map((point) => {
          const key = `${title} ${point.id}`;
          return (
            <PointRow
              key={point.id}
              view={view}
              point={point}
              alsoBehind={point.covers
                .filter((hiding) => hiding.cover !== cover?.cover)
                .map((hiding) => coverNames.get(hiding.cover) ?? hiding.cover)}
              giving={giving === key}
              busy={busy}
              onToggle={() => onToggle(key)}
              onGive={(evidence) => onGive(point.id, evidence)}
            />
          );
        })}
      </ul>
    </section>
  );
}

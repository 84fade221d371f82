// The car looked over: as it came at Arrive, and again at Refit with what became of it.
import './check-in.css';
import { useMemo } from 'react';
import type { CheckStage } from '../../job/check-in/check-forms.ts';
import { type CheckReport, checkInOf } from '../../job/check-in/check-in.ts';
import { checkGroups } from '../../job/check-in/checks.ts';
import type { JobView } from '../api-client.ts';
import { JobAway } from '../job-card/JobAway.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { goTo } from '../router.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { Page } from '../shell/Page.tsx';
import { stageNames } from '../shell/stages.ts';
import { headOf } from '../shop/job-words.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useJob } from '../shop/use-job.ts';
import { AddMark } from './AddMark.tsx';
import { CheckCard } from './CheckCard.tsx';
import { checkInSentence, groupWords, nextCheck, nextWords, stageWords } from './check-words.ts';
import { useCheck } from './use-check.ts';

export function CheckInScreen({ job, at }: { job: string; at: CheckStage }) {
  const { value, error } = useJob(job);
  if (!value) return <JobAway job={job} error={error} />;
  return <CheckInOfJob view={value} at={at} />;
}

/** Brings a check into sight with the first thing in it that takes an answer. */
function focusCheck(check: string): void {
  const card = document.querySelector(`[data-check="${CSS.escape(check)}"]`);
  card?.scrollIntoView({ block: 'center' });
  card?.querySelector<HTMLElement>('input, textarea, button')?.focus({ preventScroll: true });
}

/** What is not as it came, and what only a person can tell, before the long list. */
function Differences({ reports }: { reports: readonly CheckReport[] }) {
  const told = reports.filter(
    ({ refit, difference: { change } }) => refit !== null && change !== 'same' && change !== 'not-tried',
  );
  if (told.length === 0) return null;
  return (
    <section aria-labelledby="differences">
      <h2 id="differences" className="h2s">
        As it came, as it is <small>what is not the same, or is for you to tell</small>
      </h2>
      <ul className="differences">
        {told.map(({ check, name, difference: { change, says } }) => (
          <li key={check}>
            <SeverityMark severity={change === 'worse' ? 'fix' : change === 'better' ? 'ok' : 'note'}>
              {name}
            </SeverityMark>
            <span>{trueMinus(says)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function CheckInOfJob({ view, at }: { view: JobView; at: CheckStage }) {
  const job = view.job.id;
  const checking = useCheck(view, at);
  const checkIn = useMemo(() => checkInOf(view.job), [view]);
  const next = nextCheck(checkIn, at);
  const { done, open } = checkIn.counts[at];
  const other = at === 'arrive' ? 'refit' : 'arrive';
  const main: MainAction =
    next === undefined
      ? { text: 'Job card', small: 'all of it is looked over', onPress: () => goTo({ page: 'job', job }) }
      : { text: nextWords(next, at), small: `${done} done, ${open} open`, onPress: () => focusCheck(next.check) };
  const complaint = view.personal.complaint?.value;
  return (
    <Page
      name="check-in"
      title={`${stageWords[at]}: job ${view.job.number ?? view.job.name}`}
      head={headOf(view, job)}
      job={job}
      stage={stageNames.indexOf(stageWords[at] as (typeof stageNames)[number])}
      says={checkInSentence(checkIn, at)}
      bar={{
        undo: undoAct(view.job, checking.wish),
        seconds: [{ text: stageWords[other], onPress: () => goTo({ page: 'check-in', job, at: other }) }],
        main,
      }}
    >
      {checking.error ? <ErrorCard error={checking.error} safe="What was kept before is safe." /> : null}
      {at === 'refit' ? <Differences reports={checkIn.checks} /> : null}
      {checkGroups.map((group) => {
        const reports = checkIn.checks.filter(
          // What is new at Refit was not there when the car came.
          (report) => report.group === group && (group !== 'marks' || at === 'refit' || report.arrive !== null),
        );
        return (
          <section key={group} aria-labelledby={`group-${group}`} className={`group ${group}`}>
            <h2 id={`group-${group}`} className="h2s">
              {groupWords[group].title} <small>{groupWords[group].small}</small>
            </h2>
            {group === 'complaint' && complaint ? <blockquote>{complaint}</blockquote> : null}
            <ul className="checks">
              {reports.map((report) => (
                <CheckCard
                  key={`${report.check} ${at}`}
                  report={report}
                  at={at}
                  view={view}
                  checking={checking}
                  next={report.check === next?.check}
                />
              ))}
            </ul>
            {group === 'marks' ? <AddMark view={view} at={at} checking={checking} /> : null}
          </section>
        );
      })}
    </Page>
  );
}

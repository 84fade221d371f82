// One check: what is tried, what to mind, what was found at both ends of the job, and what became of it.
import type { CheckStage } from '../../job/check-in/check-forms.ts';
import type { CheckReport } from '../../job/check-in/check-in.ts';
import type { JobView } from '../api-client.ts';
import { type Severity, SeverityMark } from '../parts/Severity.tsx';
import { whenText } from '../parts/times.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { CheckAnswer } from './CheckAnswer.tsx';
import { stageWords } from './check-words.ts';
import type { Checking } from './use-check.ts';

const verdicts: Partial<Record<NonNullable<CheckReport['arrive']>['verdict'], [Severity, string]>> = {
  fine: ['ok', 'fine'],
  fault: ['fix', 'fault'],
  'cannot-tell': ['note', 'cannot tell'],
  'not-tried': ['note', 'not tried'],
  'not-fitted': ['note', 'has none'],
  kept: ['ok', 'kept'],
};

const changes: Record<CheckReport['difference']['change'], [Severity, string]> = {
  worse: ['fix', 'worse'],
  better: ['ok', 'better'],
  same: ['ok', 'same'],
  'not-tried': ['note', 'open'],
  'cannot-tell': ['note', 'look'],
};

/** Beside the word of the verdict only what it does not say. */
const more = ({ found, says }: NonNullable<CheckReport['arrive']>) =>
  found.how === 'seen' ? (found.words ?? '') : says;

function Answer({ answer, stage }: { answer: NonNullable<CheckReport['arrive']>; stage: CheckStage }) {
  const [severity, word] = verdicts[answer.verdict] ?? ['note', answer.verdict];
  return (
    <div className="given">
      {answer.found.how === 'photo' && answer.verdict === 'kept' ? (
        <img src={`/api/photos/${answer.found.photo}`} alt={trueMinus(answer.says)} loading="lazy" decoding="async" />
      ) : null}
      <p>
        <SeverityMark severity={severity}>{word}</SeverityMark> <span>{trueMinus(more(answer))}</span>{' '}
        <small>
          {stageWords[stage]}, {answer.who}, {whenText(answer.when, new Date())}
        </small>
        {answer.why === undefined ? null : <span className="why"> {trueMinus(answer.why)}</span>}
      </p>
    </div>
  );
}

interface CheckCardProps {
  report: CheckReport;
  at: CheckStage;
  view: JobView;
  checking: Checking;
  next: boolean;
}

export function CheckCard({ report, at, view, checking, next }: CheckCardProps) {
  const { arrive, refit, difference, caution, says, name, check } = report;
  const [severity, word] = changes[difference.change];
  const open = report[at] === null || report[at]?.verdict === 'not-tried';
  return (
    <li className={`check${next ? ' next' : ''}${open ? ' open' : ''}`} data-check={check}>
      <h3>{name}</h3>
      <p className="how">{says}</p>
      {caution === null || !open ? null : <p className="caution">{caution}</p>}
      {arrive === null ? null : <Answer answer={arrive} stage="arrive" />}
      {refit === null || at === 'arrive' ? null : <Answer answer={refit} stage="refit" />}
      {at === 'refit' && refit !== null ? (
        <p className="difference">
          <SeverityMark severity={severity}>{word}</SeverityMark> {trueMinus(difference.says)}
        </p>
      ) : null}
      {open ? (
        <CheckAnswer report={report} at={at} view={view} checking={checking} />
      ) : (
        <details>
          <summary>Answer {name.toLowerCase()} again</summary>
          <CheckAnswer report={report} at={at} view={view} checking={checking} />
        </details>
      )}
    </li>
  );
}

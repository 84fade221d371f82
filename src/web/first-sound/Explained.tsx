// Every least explanation of what was heard.
import type { JobWalk } from '../../job/walk/job-walk.ts';
import { faultWords } from '../../wiring/fault-words.ts';
import { Finding } from '../parts/Finding.tsx';
import { explanationsSentence } from './walk-words.ts';

/** More than these nobody reads; the next test makes them fewer. */
const mostShown = 6;

export function Explained({ walk }: { walk: JobWalk }) {
  const { answer } = walk;
  const found = answer.explanations.filter(({ faults }) => faults.length > 0);
  const shown = found.slice(0, mostShown);
  return (
    <section className="explained" aria-labelledby="explained">
      <h2 id="explained">{explanationsSentence(walk)}</h2>
      {answer.remarks.map((remark) => (
        <Finding key={remark} severity="stop" word="stop" message={remark} />
      ))}
      <ol>
        {shown.map(({ faults }) => (
          <li key={faults.join()}>
            {faults.map((fault) => {
              const { says, act } = faultWords(walk.walk, fault);
              return (
                <p key={fault}>
                  <b>{says}</b> {act}
                </p>
              );
            })}
          </li>
        ))}
      </ol>
      {found.length > shown.length ? (
        <p className="quiet">And {found.length - shown.length} more; the next test makes them fewer.</p>
      ) : null}
    </section>
  );
}

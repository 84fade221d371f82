// What the near walk comes to: danger first and loud, then what explains it, then what to do next.
import type { JobNearWalk } from '../../job/near-walk/job-near-walk.ts';
import { faultWords, testWords } from '../../wiring/fault-words.ts';
import type { WalkOfJob } from '../../wiring/plan-of-job.ts';
import { Finding } from '../parts/Finding.tsx';
import { countWords } from '../shop/job-words.ts';

/** More than these nobody reads; the next test makes them fewer. */
const mostShown = 3;

function heading({ status, explanations }: JobNearWalk): string {
  if (status === 'unexplained') return 'Nothing plausible explains the takes.';
  if (status === 'tie')
    return `${countWords(explanations.length, 'explanation', 'explanations')} fit about equally well.`;
  const [{ faults }] = explanations;
  return `${countWords(faults.length, 'fault explains', 'faults explain')} all takes.`;
}

function nextWords(walk: WalkOfJob, test: string, told: readonly string[]): { ask: string; why: string } {
  const kind = 'near-take:';
  if (!test.startsWith(kind)) return testWords(walk, test);
  const place = test.slice(kind.length);
  const name = walk.channels.find((channel) => channel.place === place)?.placeName ?? '';
  return {
    ask: `Record ${place}, ${name}${told.includes(place) ? ', once more, closer' : ''}.`,
    why: 'No other take tells as much for as little work.',
  };
}

export function Danger({ answer }: { answer: JobNearWalk }) {
  return answer.findings.map(({ place, message, clears }) => (
    <Finding key={place} severity="stop" word="stop" message={message} mend={clears} />
  ));
}

export function Told({ answer, walk }: { answer: JobNearWalk; walk: WalkOfJob }) {
  const { status, explanations, remarks, nextTests } = answer;
  const found = explanations.filter(({ faults }) => faults.length > 0);
  const shown = found.slice(0, mostShown);
  const explains = status === 'unexplained' || shown.length > 0;
  const [next] = nextTests;
  const ask =
    next === undefined
      ? null
      : nextWords(
          walk,
          next.test,
          answer.places.map(({ place }) => place),
        );
  if (!explains && remarks.length === 0 && ask === null) return null;
  return (
    <section className="near-told" aria-label="What explains it">
      {explains ? (
        <div>
          <h2>{heading(answer)}</h2>
          <ol>
            {shown.map(({ faults }) => (
              <li key={faults.join()}>
                {faults.map((fault) => {
                  const { says, act } = faultWords(walk, fault);
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
        </div>
      ) : null}
      <div>
        {remarks.map((remark) => (
          <Finding key={remark} severity="note" word="note" message={remark} />
        ))}
        {ask === null ? null : (
          <p className="said next">
            <b>Next:</b> {ask.ask} {ask.why}
          </p>
        )}
        {shown.length > 0 ? (
          <ul className="cautions" aria-label="Cautions before a lead is moved">
            <li>Amplifiers off before a lead is moved; volume right down before they are on again.</li>
          </ul>
        ) : null}
      </div>
    </section>
  );
}

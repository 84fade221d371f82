// What two people did to the same thing while one could not reach the shop, and what the shop did not take: for a person.
import './contradictions.css';
import { openContradictions, settlingNote } from '../../job/open-contradictions.ts';
import type { JobView } from '../api-client.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Finding } from '../parts/Finding.tsx';
import { useKnown } from '../shop/resource.ts';
import { jobResource, useWish } from '../shop/use-job.ts';
import { dropWish, useKeptWishes } from './waiting.ts';
import { wishWords } from './wish-words.ts';

function Refused({ job }: { job: string }) {
  const refused = useKeptWishes().filter((kept) => kept.job === job && kept.state === 'refused');
  return refused.map(({ id, wish, refusal }) => (
    <Finding
      key={id}
      severity="stop"
      word="not taken"
      message={`${wishWords(wish)} that was made while the shop was away was not taken: ${refusal?.message ?? ''}`}
      mend={refusal?.mend}
      action={
        <button type="button" className="btn" onClick={() => void dropWish(id)}>
          Let it go
        </button>
      }
    />
  ));
}

function Told({ view }: { view: JobView }) {
  const { wish, error } = useWish(view.job.id);
  return (
    <>
      {error ? <ErrorCard error={error} /> : null}
      {openContradictions(view.job).map(({ entry, says, lost }) => {
        const settled = { command: 'addNote', text: 'What holds is right.', about: settlingNote(entry) } as const;
        return (
          <Finding
            key={entry}
            severity="fix"
            word="contradicts"
            message={says}
            mend="Look at it together, then say which is right."
            action={
              <span className="ways">
                <button type="button" className="btn" onClick={() => void wish(settled)}>
                  What holds is right
                </button>
                {lost ? (
                  <button
                    type="button"
                    className="btn"
                    onClick={() => void wish({ command: 'changePlan', changes: [lost] })}
                  >
                    Take the other
                  </button>
                ) : null}
              </span>
            }
          />
        );
      })}
    </>
  );
}

export function Contradictions({ job }: { job: string }) {
  const view = useKnown(jobResource(job)) as JobView | undefined;
  return (
    <div className="findings contradictions">
      <Refused job={job} />
      {view ? <Told view={view} /> : null}
    </div>
  );
}

// The takes of a job on its card: the newest few, each a link to what it says.
import type { JobView } from '../api-client.ts';
import { CoverStrip } from '../parts/CoverStrip.tsx';
import { whenText } from '../parts/times.ts';
import { Link } from '../shell/Link.tsx';

const shownMost = 6;

export function TakesOnCard({ view }: { view: JobView }) {
  const { id, takes } = view.job;
  const newest = [...takes].reverse().slice(0, shownMost);
  const now = new Date();
  return (
    <section className="card-takes" aria-label="Takes">
      <h2 className="h2s">
        <span>Takes</span>
        {takes.length > shownMost ? (
          <small>
            the newest {shownMost} of {takes.length}
          </small>
        ) : null}
      </h2>
      {newest.length === 0 ? (
        <p className="said">None yet. A take is a recording, the track that played, and the state the car was in.</p>
      ) : (
        <ul>
          {newest.map((take) => (
            <li key={take.take}>
              <Link to={{ page: 'reading', job: id, take: take.take }} className={take.kept ? '' : 'aside'}>
                <b>{take.name}</b>
                <span className="quiet">{whenText(take.when, now)}</span>
                <CoverStrip covers={take.covers} />
                <span className="quiet">{take.kept ? '' : 'set aside'}</span>
              </Link>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

// What is unproven, stage by stage, and behind covers that the drawing does not show.
import type { JobView } from '../api-client.ts';
import { Icon } from '../parts/Icon.tsx';
import type { KnownProof } from '../proof/use-proof.ts';
import type { Route } from '../route.ts';
import { Link } from '../shell/Link.tsx';

interface ProofOnCardProps {
  view: JobView;
  proof: KnownProof | null;
}

export function ProofOnCard({ view, proof }: ProofOnCardProps) {
  if (proof === null || proof.points.length === 0) return null;
  const job = view.job.id;
  const points: Route = { page: 'hold-points', job, cover: null };
  const undrawn = proof.covers.filter(({ letter, open }) => letter === null && open.length > 0);
  return (
    <section className="card-proof" aria-label="Hold points">
      <h2 className="h2s">
        Hold points{' '}
        <small>
          {proof.open.length} of {proof.points.length} open
        </small>
      </h2>
      <ul className="by-stage">
        {proof.stages.map(({ stage, name, open, all }) => (
          <li key={stage}>
            <Link to={stage === 'gains' ? { page: 'gains', job } : points}>
              <Icon name={open === 0 ? 'tag-sealed' : 'tag-open'} />
              <b>{name}</b>
              <span>{open > 0 ? `${open} of ${all} open` : all === 1 ? 'proven' : `all ${all} proven`}</span>
            </Link>
          </li>
        ))}
        {undrawn.map(({ cover, name, open }) => (
          <li key={cover}>
            <Link to={{ page: 'hold-points', job, cover }}>
              <Icon name="tag-open" />
              <b>{name ?? cover}</b>
              <span>{open.length} open behind it</span>
            </Link>
          </li>
        ))}
      </ul>
      <p className="ways">
        <Link to={points} className="btn">
          Open the hold points
        </Link>
        <Link to={{ page: 'gains', job }} className="btn">
          Open the gains
        </Link>
      </p>
    </section>
  );
}

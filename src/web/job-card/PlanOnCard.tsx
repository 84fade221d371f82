// The plan of the job in a line, and the ways to its screens.
import type { JobView } from '../api-client.ts';
import { Link } from '../shell/Link.tsx';
import { countWords } from '../shop/job-words.ts';

export function PlanOnCard({ view }: { view: JobView }) {
  const { parts } = view.job.plan;
  const job = view.job.id;
  const begun = parts.channel.length + parts.driver.length + parts.run.length > 0;
  return (
    <section className="card-plan" aria-label="Plan and loom">
      <h2 className="h2s">
        Plan and loom{' '}
        <small>
          {begun
            ? `${countWords(parts.channel.length, 'channel', 'channels').toLowerCase()}, ${countWords(parts.lead.length, 'lead', 'leads').toLowerCase()}`
            : 'nothing planned yet'}
        </small>
      </h2>
      <p className="ways">
        <Link to={{ page: 'plan', job, part: null }} className="btn">
          {begun ? 'Open the plan' : 'Start the plan'}
        </Link>
        <Link to={{ page: 'loom', job, lead: null }} className="btn">
          Open the loom
        </Link>
      </p>
    </section>
  );
}

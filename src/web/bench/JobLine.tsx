// One job as a line on the timetable.
import type { JobSummary } from '../api-client.ts';
import { agoText, shortDayText, whenText } from '../parts/times.ts';
import { Link } from '../shell/Link.tsx';
import { stageIndex, stageNames } from '../shell/stages.ts';
import { bodyWords, jobNumber } from '../shop/job-words.ts';

/** What a job waits for. Before the first take it waits for that, whatever a take needs besides. */
function waitsFor(job: JobSummary): string {
  if (job.takes === 0 && job.waits !== null) return 'You: the first take, the car as it came in.';
  return job.waits ?? 'Nothing: it stands as its entries left it.';
}

export function JobLine({ job, now }: { job: JobSummary; now: Date }) {
  const at = stageIndex(job);
  const share = ((at + 0.5) / stageNames.length) * 100;
  const start = (0.5 / stageNames.length) * 100;
  const vehicle = job.vehicle ?? job.name;
  const takes = job.takes === 0 ? 'no take yet' : job.takes === 1 ? '1 take' : `${job.takes} takes`;
  return (
    <Link
      to={{ page: 'job', job: job.id }}
      className="jr"
      aria-label={`Job ${jobNumber(job)}, ${vehicle}, at ${stageNames[at]}. Waits for: ${waitsFor(job)}`}
    >
      <span className="no">{jobNumber(job)}</span>
      <span className="who">
        <b>{vehicle}</b>
        <small>
          {bodyWords(job.bodyType)}, {takes}
        </small>
      </span>
      <span className="line">
        <svg width="100%" height="52" aria-hidden="true" focusable="false">
          <g className="lo">
            {[0, 1, 2, 3].map((lead) => (
              <line
                key={lead}
                x1={`${share}%`}
                x2="100%"
                y1={27.5 + (lead - 1.5) * 3}
                y2={27.5 + (lead - 1.5) * 3}
                stroke={`var(--lead-${lead + 1})`}
              />
            ))}
          </g>
          {at > 0 ? <rect x={`${start}%`} y="22" width={`${share - start}%`} height="11" fill="url(#p-wrap)" /> : null}
        </svg>
        {stageNames.map((name, index) => (
          <span key={name} className={index < at ? 'd' : index === at ? 'n' : 't'}>
            {index < at && job.createdWhen ? <em>{shortDayText(job.createdWhen)}</em> : null}
            <i />
          </span>
        ))}
      </span>
      <span className="wt">{waitsFor(job)}</span>
      <span className="du">
        {job.changedWhen ? (
          <>
            <b>{whenText(job.changedWhen, now)}</b>
            <small>{agoText(job.changedWhen, now)}</small>
          </>
        ) : null}
      </span>
    </Link>
  );
}

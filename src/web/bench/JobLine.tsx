// One job as a line on the timetable.
import type { JobSummary } from '../api-client.ts';
import { Icon } from '../parts/Icon.tsx';
import { agoText, shortDayText, whenText } from '../parts/times.ts';
import { Link } from '../shell/Link.tsx';
import { type StagesDone, stageNames } from '../shell/stages.ts';
import { bodyWords, jobNumber } from '../shop/job-words.ts';

export interface BenchLine {
  job: JobSummary;
  /** What it waits for; null where nothing waits. */
  waits: string | null;
  /** Index of the stage that it stands at. */
  at: number;
  /** Stages that entries say are done. */
  done: StagesDone;
  /** Hold points that are open, as far as they are known. */
  open: number;
}

export function JobLine({ job, waits, at, done, open, now }: BenchLine & { now: Date }) {
  const says = waits ?? 'Nothing: it stands as its entries left it.';
  const unproven = open === 0 ? '' : ` ${open} hold ${open === 1 ? 'point is' : 'points are'} open.`;
  const share = ((at + 0.5) / stageNames.length) * 100;
  const start = (0.5 / stageNames.length) * 100;
  const vehicle = job.vehicle ?? job.name;
  const takes = job.takes === 0 ? 'no take yet' : job.takes === 1 ? '1 take' : `${job.takes} takes`;
  return (
    <Link
      to={{ page: 'job', job: job.id }}
      className="jr"
      aria-label={`Job ${jobNumber(job)}, ${vehicle}, at ${stageNames[at]}. Waits for: ${says}${unproven}`}
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
          <span key={name} className={index < at ? 'd' : index === at ? 'n' : done[name] !== undefined ? 'p' : 't'}>
            {index === at && open > 0 ? (
              <b>
                <Icon name="tag-open" />
                {open}
              </b>
            ) : null}
            {index < at && done[name] ? <em>{shortDayText(done[name])}</em> : null}
            <i />
          </span>
        ))}
      </span>
      <span className="wt">{says}</span>
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

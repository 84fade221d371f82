// The stages as a loom: taped up to here, a yellow collar where you are, loose leads from here on.
import type { ReactNode } from 'react';
import type { JobView } from '../api-client.ts';
import { Icon } from '../parts/Icon.tsx';
import { dayText } from '../parts/times.ts';
import { useProof } from '../proof/use-proof.ts';
import type { Route } from '../route.ts';
import { useKnown } from '../shop/resource.ts';
import { jobResource } from '../shop/use-job.ts';
import { Link } from './Link.tsx';
import { stageNames, stagesDone } from './stages.ts';

const loose = [
  { end: 97.5, fan: -13 },
  { end: 99.2, fan: -8 },
  { end: 96.4, fan: -3.5 },
  { end: 98.6, fan: 3 },
  { end: 95.5, fan: 8.5 },
  { end: 97, fan: 13 },
];

/** One loose lead in a box of 100 by 44, wandering off from the tape. */
function leadPath({ end, fan }: { end: number; fan: number }, index: number): string {
  const from = 22 + (index - 2.5) * 2.3;
  const middle = 22 + fan * 0.62;
  const to = 22 + fan;
  const sway = index % 2 === 1 ? 1 : -1;
  return [
    `M0 ${from}C8 ${from} 14 ${middle + 1.6 * sway} 30 ${middle}`,
    `S62 ${middle - 2.2 * sway} 78 ${(middle + to) / 2}S92 ${to} ${end} ${to}`,
  ].join('');
}

/** The screen of a stage; null where a stage has none of its own. From the card, Arrive leads on to looking the car over. */
function screenOf(name: (typeof stageNames)[number], job: string, onCard: boolean): Route | null {
  switch (name) {
    case 'Arrive':
      return onCard ? { page: 'check-in', job, at: 'arrive' } : { page: 'job', job };
    case 'Plan':
      return { page: 'plan', job, part: null };
    case 'Loom':
      return { page: 'loom', job, lead: null };
    case 'First sound':
      return { page: 'first-sound', job };
    case 'Gains':
      return { page: 'gains', job };
    case 'Refit':
      return { page: 'hold-points', job, cover: null };
    default:
      return null;
  }
}

function Collar({ to, children }: { to: Route | null; children: ReactNode }) {
  return to === null ? (
    <span className="collar">{children}</span>
  ) : (
    <Link to={to} className="collar">
      {children}
    </Link>
  );
}

interface StageStripProps {
  /** Collars lead to the screens of this job. */
  job?: string | null;
  now: number;
  /** Larger, with a line under each stage: the job card. */
  big?: boolean;
  /** The collars lead nowhere. */
  held?: boolean;
}

/** Under a stage that is done: the day, or that it is proven. */
const doneWords = (when: string | null | undefined) => (when ? dayText(when) : 'proven');

export function StageStrip({ job = null, now, big = false, held = false }: StageStripProps) {
  const view = useKnown(job === null ? null : jobResource(job)) as JobView | undefined;
  const open = useProof(view)?.stages ?? [];
  const done = view === undefined ? {} : stagesDone(view, open);
  const share = ((now + 0.5) / stageNames.length) * 100;
  return (
    <nav className={`strip${big ? ' big' : ''}`} aria-label="Stages of this job">
      <svg className="trunk" width="100%" height="44" aria-hidden="true" focusable="false">
        <svg
          x={`${share}%`}
          width={`${100 - share}%`}
          height="44"
          viewBox="0 0 100 44"
          preserveAspectRatio="none"
          className="loose"
          aria-hidden="true"
        >
          {loose.map((lead, index) => (
            <path key={lead.end} d={leadPath(lead, index)} stroke={`var(--lead-${index + 1})`} />
          ))}
        </svg>
        <rect x="0" y="14" width={`${share}%`} height="16" fill="url(#p-wrap)" />
      </svg>
      <ol>
        {stageNames.map((name, index) => {
          // A tick says that entries say so, wherever the screen stands: no other stage is said to be done.
          const other = done[name] !== undefined ? 'done' : index < now ? 'before' : 'todo';
          const state = index === now ? 'now' : other;
          const unproven = open.find((one) => one.name === name)?.open ?? 0;
          const word = { done: 'done', before: 'before this', now: 'you are here', todo: 'to come' }[state];
          return (
            <li key={name} className={state} aria-current={state === 'now' ? 'step' : undefined}>
              <Collar to={job === null || held ? null : screenOf(name, job, big)}>
                <i />
                <b>{name}</b>
                <span className="unseen">: {word}</span>
                {big && unproven > 0 ? (
                  <small className="unproven">
                    <Icon name="tag-open" />
                    {unproven} open
                  </small>
                ) : big && (state === 'now' || state === 'done') ? (
                  <small aria-hidden={state === 'now'}>{state === 'now' ? word : doneWords(done[name])}</small>
                ) : null}
              </Collar>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

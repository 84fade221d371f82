// One finding: what is wrong, why it matters, the one press that mends it, or a person who accepts it.
import { useState } from 'react';
import type { Plan } from '../../plan/plan.ts';
import { Icon } from '../parts/Icon.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { whenText } from '../parts/times.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { useNumbers } from '../settings.ts';
import { AcceptForm } from './AcceptForm.tsx';
import type { FindingGroup } from './plan-finding.ts';
import { mendWords, placesWords, stands } from './plan-words.ts';
import type { PlanActions } from './use-plan.ts';

interface PlanFindingCardProps {
  plan: Plan;
  /** One finding, or several that say the same. */
  group: FindingGroup;
  actions: PlanActions;
  /** Under a lane: short; in the list: with its rule, its reason and what would clear it. */
  brief?: boolean;
  /** Points up at the column at fault. */
  at?: number;
}

/** The sentence before the first full stop carries the finding; the rest says what to do. */
function split(message: string): [string, string] {
  const end = message.search(/[.!](?= [A-Z])/);
  return end < 0 ? [message, ''] : [message.slice(0, end + 1), message.slice(end + 1)];
}

export function PlanFindingCard({ plan, group, actions, brief = false, at }: PlanFindingCardProps) {
  const style = useNumbers();
  const [accepting, setAccepting] = useState(false);
  const [finding] = group;
  const { severity, message, accepted, id } = finding;
  const place = placesWords(group);
  const mend = mendWords(plan, group, style);
  const open = stands(finding);
  const [first, rest] = split(trueMinus(message));
  const mayAccept = severity !== 'stop' || id === 'P-01';
  return (
    <article
      className={`pf ${severity}${open ? '' : ' taken'}${at === undefined ? '' : ` at-${at}`}`}
      aria-label={`${severity}: ${place}`}
    >
      <SeverityMark severity={severity}>{severity}</SeverityMark>
      <div className="says">
        <p>
          <b>{first}</b>
          {rest}
          {brief && group.length > 1 ? ` The same at ${placesWords(group.slice(1) as unknown as FindingGroup)}.` : ''}
        </p>
        {brief ? null : (
          <p className="small">
            {id}, {place}. {trueMinus(finding.why)}
          </p>
        )}
        {accepted ? (
          <p className="small">
            {open ? <b>{accepted.stale} </b> : <Icon name="check" />}
            Accepted by {accepted.who}, {whenText(accepted.when, new Date())}: {accepted.why}
          </p>
        ) : null}
        {accepting ? (
          <AcceptForm
            onCancel={() => setAccepting(false)}
            onAccept={async (who, why) => {
              if (await actions.accept(group, who, why)) setAccepting(false);
            }}
          />
        ) : null}
      </div>
      <div className="does">
        {open && mend ? (
          <button type="button" className="btn" disabled={actions.busy} onClick={() => void actions.mend(group)}>
            {mend}
          </button>
        ) : null}
        {open && mayAccept && !accepting ? (
          <button type="button" className="btn quiet-btn" onClick={() => setAccepting(true)}>
            Accept
            <span className="unseen">
              {' '}
              {id} at {place}
            </span>
          </button>
        ) : null}
      </div>
    </article>
  );
}

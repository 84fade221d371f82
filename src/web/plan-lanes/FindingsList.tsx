// All that the rules say in one list, and apart from it what they cannot tell yet.
import { useId, useState } from 'react';
import type { PlanCheck } from '../../job/projections/plan-check.ts';
import { kindOf, type Plan } from '../../plan/plan.ts';
import type { EditedPart } from '../part-editor/PartEditor.tsx';
import { Icon } from '../parts/Icon.tsx';
import { countWords } from '../shop/job-words.ts';
import { idsIn } from './lanes.ts';
import { likeFindings } from './like-findings.ts';
import { PlanFindingCard } from './PlanFindingCard.tsx';
import { countsSentence } from './plan-words.ts';
import type { PlanActions } from './use-plan.ts';

interface FindingsListProps {
  plan: Plan;
  check: PlanCheck;
  actions: PlanActions;
}

export function FindingsList({ plan, check, actions }: FindingsListProps) {
  return (
    <section className="all-findings" aria-label="All findings">
      <h2 className="h2s">
        All findings <small>{countsSentence(check)}</small>
      </h2>
      {check.findings.length === 0 ? (
        <p className="said">
          <Icon name="ok" className="okay" /> Fuses against cables, loads against amplifiers, crossings against drivers
          and each path from source to place were looked at: nothing known is wrong.
        </p>
      ) : (
        <div className="findings">
          {likeFindings(check.findings).map((group) => (
            <PlanFindingCard
              key={`${group[0].id} ${group[0].place} ${group[0].message}`}
              plan={plan}
              group={group}
              actions={actions}
            />
          ))}
        </div>
      )}
    </section>
  );
}

interface Open {
  needs: string;
  rules: string[];
  places: string[];
}

/** What is missing, once each: the places that lack it, and the rules that wait for it. */
function openOf({ cannotTell }: PlanCheck): Open[] {
  const byNeed = new Map<string, Open>();
  for (const { needs, place, id } of cannotTell) {
    const open = byNeed.get(needs) ?? { needs, rules: [], places: [] };
    byNeed.set(needs, open);
    if (!open.rules.includes(id)) open.rules.push(id);
    if (!open.places.includes(place)) open.places.push(place);
  }
  return [...byNeed.values()].sort((a, b) => b.places.length - a.places.length);
}

/** So many fit beside the findings; the rest is a press away. */
const firstShown = 6;

interface CannotTellProps {
  plan: Plan;
  check: PlanCheck;
  onEdit: (part: EditedPart) => void;
}

export function CannotTell({ plan, check, onEdit }: CannotTellProps) {
  const id = useId();
  const [all, setAll] = useState(false);
  const open = openOf(check);
  if (open.length === 0) return null;
  const shown = all ? open : open.slice(0, firstShown);
  return (
    <section className="cannot-tell" aria-labelledby={id}>
      <h2 className="h2s" id={id}>
        Cannot tell yet{' '}
        <small>{countWords(open.length, 'thing is', 'things are')} not known; not known is not sound</small>
      </h2>
      <ul>
        {shown.map(({ needs, rules, places }) => (
          <li key={needs}>
            <p>
              <b>{needs[0].toUpperCase() + needs.slice(1)}</b>
              <small>{rules.join(', ')}</small>
            </p>
            <div className="at">
              {places.map((place) => (
                <PlaceButton key={place} plan={plan} place={place} onEdit={onEdit} />
              ))}
            </div>
          </li>
        ))}
      </ul>
      {open.length > firstShown ? (
        <button type="button" className="linky" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? 'Show the first few' : `Show all ${open.length}`}
        </button>
      ) : null}
    </section>
  );
}

function PlaceButton({ plan, place, onEdit }: { plan: Plan; place: string; onEdit: (part: EditedPart) => void }) {
  const part = partIn(plan, place);
  if (part === null) return <span className="quiet">{place}</span>;
  return (
    <button type="button" className="btn" onClick={() => onEdit(part)}>
      {place}
    </button>
  );
}

/** The part that a place speaks of first. */
function partIn(plan: Plan, place: string): EditedPart | null {
  for (const word of idsIn(place)) {
    const id = word.split('/')[0];
    const kind = kindOf(plan, id);
    if (kind !== null) return { kind, id };
  }
  return null;
}

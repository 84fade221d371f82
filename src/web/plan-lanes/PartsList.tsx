// Every part of the plan by its kind, a press to edit each, a press to add one; drivers also from a table.
import { type Part, type PartKind, type Plan, partKinds } from '../../plan/plan.ts';
import { kindWords } from '../part-editor/field-forms.ts';
import { type EditedPart, newPart } from '../part-editor/PartEditor.tsx';
import { partLabel } from '../part-editor/part-facts.ts';
import { DriversFromTable } from './DriversFromTable.tsx';
import type { PlanActions } from './use-plan.ts';

interface PartsListProps {
  plan: Plan;
  actions: PlanActions;
  onEdit: (part: EditedPart) => void;
}

/** In the order in which a plan is made. */
const order: PartKind[] = [
  'source',
  'processor',
  'amplifier',
  'channel',
  'load',
  'driver',
  'enclosure',
  'place',
  'cover',
  'seat',
  'vehicle',
  'battery',
  'block',
  'run',
  'fuse',
  'ground',
  'lead',
  'reading',
  'holdPoint',
];

export function PartsList({ plan, actions, onEdit }: PartsListProps) {
  const kinds = [...order, ...partKinds.filter((kind) => !order.includes(kind))];
  return (
    <section className="parts-list" aria-label="Parts of the plan">
      <h2 className="h2s">
        Parts <small>press one to change it</small>
      </h2>
      <dl>
        {kinds.map((kind) => {
          const list = plan[kind] as Part[];
          const [one, many] = kindWords[kind];
          return (
            <div key={kind}>
              <dt>{many}</dt>
              <dd>
                {list.map(({ id }) => (
                  <button key={id} type="button" className="btn" onClick={() => onEdit({ kind, id })}>
                    {partLabel(plan, id)}
                  </button>
                ))}
                {kind === 'vehicle' && list.length > 0 ? null : (
                  <button type="button" className="btn add" onClick={() => onEdit(newPart(plan, kind))}>
                    Add a {one}
                  </button>
                )}
              </dd>
            </div>
          );
        })}
      </dl>
      <DriversFromTable plan={plan} actions={actions} />
    </section>
  );
}

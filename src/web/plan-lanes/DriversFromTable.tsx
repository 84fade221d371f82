// Driver sheets from a table: a file or pasted text, looked at first, then put into the plan as one change.
import { useState } from 'react';
import { driversFromTable } from '../../plan/parts-csv.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import { Field } from '../parts/Field.tsx';
import type { PlanActions } from './use-plan.ts';

interface DriversFromTableProps {
  plan: Plan;
  actions: PlanActions;
}

/** What a sheet says replaces what was there; place and box stay those of the car. */
function merged(plan: Plan, driver: PartOf<'driver'>): PartOf<'driver'> {
  const known = plan.driver.find(({ id }) => id === driver.id);
  if (known === undefined) return driver;
  const { place, enclosure, facing, gapUnderConeMm } = known;
  const kept = Object.fromEntries(
    Object.entries({ place, enclosure, facing, gapUnderConeMm }).filter(([, value]) => value !== undefined),
  );
  return { ...driver, ...kept };
}

export function DriversFromTable({ plan, actions }: DriversFromTableProps) {
  const [text, setText] = useState('');
  const table = text.trim() === '' ? null : driversFromTable(text);
  const drivers = table?.ok ? table.value : [];
  const put = async () => {
    const changes = drivers.map((driver) => ({ part: 'driver' as const, id: driver.id, value: merged(plan, driver) }));
    if (changes.length > 0 && (await actions.change(...changes))) setText('');
  };
  return (
    <details className="from-table">
      <summary>Drivers from a table</summary>
      <div className="table-in">
        <p className="said">
          First line the columns, such as <b>id; make; model; fs (Hz); qms; qes; sd (cm2); mms (g); re (ohm)</b>, then a
          line a driver. An id that is in the plan, such as D3, gets the new sheet and keeps its place.
        </p>
        <div className="field">
          <label htmlFor="driver-table">File</label>
          <input
            id="driver-table"
            type="file"
            accept=".csv,.txt,.tsv,text/csv,text/plain"
            onChange={({ target }) => {
              const [file] = target.files ?? [];
              if (file) void file.text().then(setText);
            }}
          />
        </div>
        <Field label="Or its text">
          {(given) => (
            <textarea {...given} value={text} spellCheck={false} onChange={({ target }) => setText(target.value)} />
          )}
        </Field>
        {table && !table.ok ? (
          <ul className="wrong-lines" role="alert">
            {table.issues.slice(0, 8).map(({ where, message, mend }) => (
              <li key={`${where} ${message}`}>
                <b>{where}</b>: {message} {mend}
              </li>
            ))}
          </ul>
        ) : null}
        {drivers.length > 0 ? (
          <button type="button" className="btn" disabled={actions.busy} onClick={() => void put()}>
            Put {drivers.map(({ id }) => id).join(', ')} into the plan
          </button>
        ) : null}
      </div>
    </details>
  );
}

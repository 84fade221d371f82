// The whole loom typed at one go: sizes, metals, lengths, fuses, colours. Kept as one change.
import { useState } from 'react';
import type { Part, PartKind, PartOf, Plan } from '../../plan/plan.ts';
import { materials } from '../../plan/power-parts.ts';
import { Pick } from '../part-editor/choices.tsx';
import { CableInput, NumberInput, type Typed } from '../part-editor/inputs.tsx';
import { quantities } from '../part-editor/quantity.ts';
import type { PlanActions } from '../plan-lanes/use-plan.ts';
import { partWith, type TypedParts, typedChanges, withTyped } from './sizes.ts';

const metalWords: Record<(typeof materials)[number], string> = {
  copper: 'copper',
  'copper-clad-aluminium-15': 'clad, 15 % copper',
  'copper-clad-aluminium-10': 'clad, 10 % copper',
  aluminium: 'aluminium',
  unknown: 'not known',
};

interface SizesTableProps {
  plan: Plan;
  actions: PlanActions;
  onDone: () => void;
  /** Power runs with their fuses and grounds, or speaker leads. */
  of: 'power' | 'leads';
}

export function SizesTable({ plan, actions, onDone, of }: SizesTableProps) {
  const [typed, setTyped] = useState<TypedParts>(new Map());
  const [wrong, setWrong] = useState<ReadonlySet<string>>(new Set());
  const [refused, setRefused] = useState(false);
  const set = (part: PartKind, id: string, fields: Record<string, unknown>) =>
    setTyped((before) => withTyped(before, part, id, fields));
  const given =
    (part: PartKind, id: string, field: string, fieldsOf: (value: unknown) => Record<string, unknown>) =>
    (entry: Typed<unknown>) => {
      const key = `${part} ${id} ${field}`;
      setWrong((before) => {
        const next = new Set(before);
        if ('wrong' in entry) next.add(key);
        else next.delete(key);
        return next;
      });
      if ('value' in entry) set(part, id, fieldsOf(entry.value));
    };
  const cabled: PartKind[] = of === 'power' ? ['run', 'ground'] : ['lead'];
  const allCopper = () =>
    setTyped((before) =>
      cabled
        .flatMap((kind) => (plan[kind] as Part[]).map(({ id }) => ({ kind, id })))
        .filter(({ kind, id }) => (partWith(plan, before, kind, id) as PartOf<'run'>).material === undefined)
        .reduce((next, { kind, id }) => withTyped(next, kind, id, { material: 'copper' }), before),
    );
  const keep = async () => {
    if (wrong.size > 0) return setRefused(true);
    const changes = typedChanges(plan, typed);
    if (changes.length === 0 || (await actions.change(...changes))) onDone();
  };
  const row = { plan, typed, given, set };
  return (
    <form
      className={`sizes ${of}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <table>
        <thead>
          <tr>
            <th scope="col">{of === 'power' ? 'Run' : 'Lead'}</th>
            <th scope="col">Size</th>
            <th scope="col">Metal</th>
            <th scope="col">Length, m</th>
            {of === 'power' ? (
              <>
                <th scope="col">Fuse, A</th>
                <th scope="col">Fuse from its start, m</th>
              </>
            ) : (
              <th scope="col">Colour</th>
            )}
          </tr>
        </thead>
        <tbody>
          {of === 'power' ? (
            <>
              {plan.run.map((run) => (
                <SizeRow
                  key={run.id}
                  {...row}
                  kind="run"
                  id={run.id}
                  name={run.name ?? ''}
                  fuse={fuseOf(plan, run.id)}
                />
              ))}
              {plan.ground.map((ground) => (
                <SizeRow key={ground.id} {...row} kind="ground" id={ground.id} name={`ground of ${ground.of ?? '?'}`} />
              ))}
            </>
          ) : (
            plan.lead.map((lead) => (
              <SizeRow key={lead.id} {...row} kind="lead" id={lead.id} name={leadName(plan, lead)} />
            ))
          )}
        </tbody>
      </table>
      {refused && wrong.size > 0 ? (
        <p className="refusal" role="alert">
          One field cannot be kept: {[...wrong][0]}. What it accepts stands under it.
        </p>
      ) : null}
      <div className="ways">
        <button type="submit" className="btn keep" disabled={actions.busy}>
          Keep these sizes
        </button>
        <button type="button" className="btn" onClick={allCopper}>
          The others are copper
        </button>
        <button type="button" className="btn" onClick={onDone}>
          Leave it as it was
        </button>
      </div>
    </form>
  );
}

const fuseOf = (plan: Plan, run: string) => plan.fuse.find((fuse) => fuse.run === run)?.id;

function leadName(plan: Plan, { from, to }: PartOf<'lead'>): string {
  const driver = plan.driver.find(({ id }) => id === to);
  const place = plan.place.find(({ id }) => id === driver?.place);
  return `${(from ?? '?').replace('/', '')} to ${place?.name ?? to ?? '?'}`;
}

interface SizeRowProps {
  plan: Plan;
  typed: TypedParts;
  kind: 'run' | 'ground' | 'lead';
  id: string;
  name: string;
  fuse?: string | undefined;
  given: (
    part: PartKind,
    id: string,
    field: string,
    fieldsOf: (value: unknown) => Record<string, unknown>,
  ) => (entry: Typed<unknown>) => void;
  set: (part: PartKind, id: string, fields: Record<string, unknown>) => void;
}

function SizeRow({ plan, typed, kind, id, name, fuse, given, set }: SizeRowProps) {
  const { areaMm2, gauge, material, lengthM, colour } = partWith(plan, typed, kind, id) as PartOf<'run'> & {
    colour?: string;
  };
  const size = areaMm2 !== undefined ? { areaMm2 } : gauge === undefined ? undefined : { gauge };
  const rated = fuse === undefined ? undefined : (partWith(plan, typed, 'fuse', fuse) as PartOf<'fuse'>);
  return (
    <tr>
      <th scope="row">
        <b>{id}</b>
        <small>{name}</small>
      </th>
      <td data-name="Size">
        <CableInput
          bare
          label={`Size of ${id}`}
          value={size}
          onTyped={given(kind, id, 'size', (value) => ({
            areaMm2: undefined,
            gauge: undefined,
            ...(value as object | undefined),
          }))}
        />
      </td>
      <td data-name="Metal">
        <Pick
          bare
          label={`Metal of ${id}`}
          none="say which"
          value={material}
          options={materials.map((metal) => ({ value: metal, words: metalWords[metal] }))}
          onChange={(metal) => set(kind, id, { material: metal })}
        />
      </td>
      <td data-name="Length, m">
        <NumberInput
          bare
          label={`Length of ${id}`}
          quantity={quantities.metres}
          range={{ min: 0, max: 100 }}
          value={lengthM}
          onTyped={given(kind, id, 'length', (value) => ({ lengthM: value }))}
        />
      </td>
      {kind === 'lead' ? (
        <td data-name="Colour">
          <input
            aria-label={`Colour of ${id}`}
            value={colour ?? ''}
            maxLength={120}
            autoComplete="off"
            onChange={({ target }) =>
              set('lead', id, { colour: target.value.trim() === '' ? undefined : target.value })
            }
          />
        </td>
      ) : fuse === undefined ? (
        <td colSpan={2} className="quiet">
          {kind === 'ground' ? 'no fuse belongs in a ground lead' : 'no fuse planned in this run'}
        </td>
      ) : (
        <>
          <td data-name={`${fuse}, A`}>
            <NumberInput
              bare
              label={`Rating of ${fuse}`}
              quantity={quantities.amperes}
              range={{ min: 0.1, max: 2000 }}
              value={rated?.ratedA}
              onTyped={given('fuse', fuse, 'rating', (value) => ({ ratedA: value }))}
            />
          </td>
          <td data-name="From its start, m">
            <NumberInput
              bare
              label={`${fuse} from the start of ${id}`}
              quantity={quantities.metres}
              range={{ min: 0, max: 100 }}
              value={rated?.atM}
              onTyped={given('fuse', fuse, 'place', (value) => ({ atM: value }))}
            />
          </td>
        </>
      )}
    </tr>
  );
}

// The fields of one part, whatever its kind: each typed or chosen, none of them asked for.
import type { Part, PartKind, PartOf, Plan } from '../../plan/plan.ts';
import { Field } from '../parts/Field.tsx';
import { AmplifierChannels, type AmplifierRatings } from './AmplifierChannels.tsx';
import { BandsInput } from './BandsInput.tsx';
import { Checks, Pick } from './choices.tsx';
import { DistancesInput } from './DistancesInput.tsx';
import { EdgeInput } from './EdgeInput.tsx';
import { type FieldForm, fieldForms } from './field-forms.ts';
import { fuseSteps } from './fuse-steps.ts';
import { CableInput, NumberInput, NumbersInput, ReadingInput, type Typed } from './inputs.tsx';
import { partLabel, rangeOf, terminalsFor } from './part-facts.ts';
import { quantities } from './quantity.ts';
import { TerminalList, type Terminals } from './TerminalList.tsx';
import { WiringInput } from './WiringInput.tsx';

export type Draft = Record<string, unknown> & { id: string };

interface PartFormProps {
  plan: Plan;
  kind: PartKind;
  draft: Draft;
  onChange: (draft: Draft) => void;
  /** What stands in a field and cannot be taken; null once it can. */
  onWrong: (field: string, wrong: string | null) => void;
}

/** The draft with some fields set; an undefined one is taken out, because absent means not known. */
function withFields(draft: Draft, fields: Record<string, unknown>): Draft {
  const next: Draft = { ...draft, ...fields };
  for (const [field, value] of Object.entries(fields)) if (value === undefined) delete next[field];
  return next;
}

export function PartForm({ plan, kind, draft, onChange, onWrong }: PartFormProps) {
  const set = (fields: Record<string, unknown>) => onChange(withFields(draft, fields));
  const typed =
    (field: string, fieldsOf: (value: unknown) => Record<string, unknown> = (value) => ({ [field]: value })) =>
    (given: Typed<unknown>) => {
      onWrong(field, 'wrong' in given ? given.wrong : null);
      if ('value' in given) set(fieldsOf(given.value));
    };
  return (
    <div className="part-form">
      {Object.entries(fieldForms[kind] as Record<string, FieldForm>).map(([field, form]) => (
        <FormField
          key={field}
          field={field}
          form={form}
          plan={plan}
          kind={kind}
          draft={draft}
          set={set}
          typed={typed}
        />
      ))}
      {kind === 'processor' ? (
        <>
          <TerminalList
            side="inputs"
            plan={plan}
            value={draft.inputs as Terminals}
            onChange={(inputs) => set({ inputs })}
            onWrong={onWrong}
          />
          <TerminalList
            side="outputs"
            plan={plan}
            value={draft.outputs as Terminals}
            onChange={(outputs) => set({ outputs })}
            onWrong={onWrong}
          />
        </>
      ) : null}
      {kind === 'source' ? (
        <TerminalList
          side="source"
          plan={plan}
          value={draft.outputs as Terminals}
          onChange={(outputs) => set({ outputs })}
          onWrong={onWrong}
        />
      ) : null}
    </div>
  );
}

interface FormFieldProps {
  field: string;
  form: FieldForm;
  plan: Plan;
  kind: PartKind;
  draft: Draft;
  set: (fields: Record<string, unknown>) => void;
  typed: (field: string, fieldsOf?: (value: unknown) => Record<string, unknown>) => (given: Typed<unknown>) => void;
}

function FormField({ field, form, plan, kind, draft, set, typed }: FormFieldProps) {
  const value = draft[field];
  const { label } = form;
  switch (form.type) {
    case 'text':
      return (
        <Field label={label}>
          {(given) =>
            form.long ? (
              <textarea
                {...given}
                value={(value as string | undefined) ?? ''}
                maxLength={2000}
                onChange={({ target }) => set({ [field]: target.value === '' ? undefined : target.value })}
              />
            ) : (
              <input
                {...given}
                value={(value as string | undefined) ?? ''}
                maxLength={120}
                autoComplete="off"
                list={form.suggest ? `suggest-${field}` : undefined}
                onChange={({ target }) => set({ [field]: target.value === '' ? undefined : target.value })}
              />
            )
          }
        </Field>
      );
    case 'number':
      return (
        <NumberInput
          label={label}
          hint={form.hint}
          quantity={quantities[form.quantity]}
          range={rangeOf(kind, field)}
          steps={kind === 'fuse' && field === 'ratedA' ? fuseSteps((draft as PartOf<'fuse'>).family) : undefined}
          value={value as number | undefined}
          onTyped={typed(field)}
        />
      );
    case 'numbers':
      return (
        <NumbersInput
          label={label}
          hint={form.hint}
          quantity={quantities[form.quantity]}
          range={{ min: 0, max: 5000 }}
          value={value as number[] | undefined}
          onTyped={typed(field)}
        />
      );
    case 'choice':
      return (
        <Pick
          label={label}
          value={value === undefined ? undefined : String(value)}
          options={form.options.map(([option, words]) => ({ value: String(option), words }))}
          onChange={(chosen) => set({ [field]: form.options.find(([option]) => String(option) === chosen)?.[0] })}
        />
      );
    case 'flag':
      return (
        <Pick
          label={label}
          value={value === undefined ? undefined : value ? 'yes' : 'no'}
          options={[
            { value: 'yes', words: 'yes' },
            { value: 'no', words: 'no' },
          ]}
          onChange={(chosen) => set({ [field]: chosen === undefined ? undefined : chosen === 'yes' })}
        />
      );
    case 'part':
      return (
        <Pick
          label={label}
          none="none yet"
          value={value as string | undefined}
          options={partOptions(plan, form.among, draft.id)}
          onChange={(chosen) => set({ [field]: chosen })}
        />
      );
    case 'parts':
      return (
        <Checks
          label={label}
          value={value as string[] | undefined}
          options={partOptions(plan, form.among, draft.id)}
          onChange={(chosen) => set({ [field]: chosen })}
        />
      );
    case 'terminal':
      return (
        <Pick
          label={label}
          none="none yet"
          value={value as string | undefined}
          options={[
            ...terminalsFor(plan, form.of),
            ...(form.orPart ? partOptions(plan, ['driver', 'amplifier', 'processor', 'source'], draft.id) : []),
          ]}
          onChange={(chosen) => set({ [field]: chosen })}
        />
      );
    case 'terminals':
      return (
        <Checks
          label={label}
          value={value as string[] | undefined}
          options={terminalsFor(plan, form.of)}
          onChange={(chosen) => set({ [field]: chosen })}
        />
      );
    case 'checks':
      return (
        <Checks
          label={label}
          orNone
          value={value as string[] | undefined}
          options={form.options.map(([option, words]) => ({ value: option, words }))}
          onChange={(chosen) => set({ [field]: chosen })}
        />
      );
    case 'edge':
      return (
        <EdgeInput
          label={label}
          value={value as PartOf<'channel'>['highPass']}
          onChange={(edge) => set({ [field]: edge })}
          onTyped={typed(field)}
        />
      );
    case 'bands':
      return <BandsInput label={label} value={value as PartOf<'channel'>['eq']} onTyped={typed(field)} />;
    case 'distances':
      return (
        <DistancesInput label={label} plan={plan} value={value as PartOf<'seat'>['distances']} onTyped={typed(field)} />
      );
    case 'cable': {
      const { areaMm2, gauge } = draft as PartOf<'run'>;
      const size = areaMm2 !== undefined ? { areaMm2 } : gauge === undefined ? undefined : { gauge };
      const fieldsOf = (given: unknown) => ({ areaMm2: undefined, gauge: undefined, ...(given as object | undefined) });
      return <CableInput label={label} value={size} onTyped={typed(field, fieldsOf)} />;
    }
    case 'wiring':
      return (
        <WiringInput
          label={label}
          plan={plan}
          value={value as PartOf<'load'>['network']}
          onChange={(network) => set({ [field]: network })}
        />
      );
    case 'ratings':
      return <AmplifierChannels value={value as AmplifierRatings} onTyped={typed(field)} />;
    case 'reading':
      return <ReadingInput label={label} value={value as number | 'open' | undefined} onTyped={typed(field)} />;
  }
}

function partOptions(plan: Plan, among: readonly PartKind[], but: string) {
  return among.flatMap((kind) =>
    (plan[kind] as Part[]).filter(({ id }) => id !== but).map(({ id }) => ({ value: id, words: partLabel(plan, id) })),
  );
}

import { Field } from '../parts/Field.tsx';
import type { NewJobDraft } from './draft.ts';

interface NewJobFieldsProps {
  draft: NewJobDraft;
  number: string;
  change: (change: Partial<NewJobDraft>) => void;
  /** Whether to say what is missing. */
  shown: boolean;
}

export function NewJobFields({ draft, number, change, shown }: NewJobFieldsProps) {
  const missing = (field: 'vehicle' | 'who', words: string) =>
    shown && draft[field].trim() === '' ? words : undefined;
  return (
    <div className="fields">
      <Field label="Card number">
        {(given) => (
          <input
            {...given}
            value={draft.number}
            placeholder={number}
            maxLength={40}
            inputMode="numeric"
            onChange={({ target }) => change({ number: target.value })}
          />
        )}
      </Field>
      <Field label="Vehicle" wrong={missing('vehicle', 'Say what it is: maker, model, year.')}>
        {(given) => (
          <input
            {...given}
            value={draft.vehicle}
            maxLength={120}
            placeholder="maker, model, year"
            onChange={({ target }) => change({ vehicle: target.value })}
          />
        )}
      </Field>
      <Field label="Owner">
        {(given) => (
          <input
            {...given}
            value={draft.owner}
            maxLength={500}
            autoComplete="off"
            onChange={({ target }) => change({ owner: target.value })}
          />
        )}
      </Field>
      <Field label="Phone">
        {(given) => (
          <input
            {...given}
            type="tel"
            value={draft.phone}
            maxLength={500}
            autoComplete="off"
            onChange={({ target }) => change({ phone: target.value })}
          />
        )}
      </Field>
      <Field label="Number plate">
        {(given) => (
          <input
            {...given}
            value={draft.plate}
            maxLength={500}
            autoComplete="off"
            onChange={({ target }) => change({ plate: target.value })}
          />
        )}
      </Field>
      <Field
        label="Who writes"
        hint="Stands beside each entry of the journal."
        wrong={missing('who', 'Give a name or initials.')}
      >
        {(given) => (
          <input
            {...given}
            value={draft.who}
            maxLength={80}
            autoComplete="off"
            onChange={({ target }) => change({ who: target.value })}
          />
        )}
      </Field>
      <div className="asked">
        <Field label="What they asked for, in their words">
          {(given) => (
            <textarea
              {...given}
              value={draft.asked}
              maxLength={10_000}
              onChange={({ target }) => change({ asked: target.value })}
            />
          )}
        </Field>
      </div>
    </div>
  );
}

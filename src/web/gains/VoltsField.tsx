// Volts that a meter shows, typed with point or comma: what they come to is said at once, and kept with one press.
import { type ReactNode, useState } from 'react';
import { quantities, typedNumber } from '../part-editor/quantity.ts';
import { Field } from '../parts/Field.tsx';

interface VoltsFieldProps {
  label: string;
  hint?: string;
  busy: boolean;
  /** What is said of a value while it is typed. */
  verdict: (valueV: number | null) => ReactNode;
  keep: string;
  /** @returns whether the journal has it */
  onKeep: (valueV: number) => Promise<boolean>;
}

export function VoltsField({ label, hint, busy, verdict, keep, onKeep }: VoltsFieldProps) {
  const [text, setText] = useState('');
  const [shown, setShown] = useState(false);
  const typed = typedNumber(text, quantities.volts);
  const value = typed !== null && typed >= 0 && typed <= 1000 ? typed : null;
  const wrong =
    (shown || text.trim() !== '') && value === null ? 'Volts from 0 to 1000, such as 3.4 or 3,4.' : undefined;
  return (
    <form
      className="volts"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        setShown(true);
        if (value === null) return;
        void onKeep(value).then((kept) => {
          if (!kept) return;
          setText('');
          setShown(false);
        });
      }}
    >
      <Field label={label} hint={hint} wrong={wrong}>
        {(field) => (
          <input
            {...field}
            inputMode="decimal"
            autoComplete="off"
            value={text}
            onChange={({ target }) => setText(target.value)}
          />
        )}
      </Field>
      <button type="submit" className="btn keep" disabled={busy}>
        {keep}
      </button>
      <p className="at-once" aria-live="polite">
        {verdict(value)}
      </p>
    </form>
  );
}

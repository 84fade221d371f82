import { Field } from './Field.tsx';

interface TextFieldProps {
  label: string;
  hint?: string;
  wrong?: string | undefined;
  value: string;
  maxLength: number;
  onChange: (value: string) => void;
}

/** A field of one line of plain words, which the browser does not fill in by itself. */
export function TextField({ label, hint, wrong, value, maxLength, onChange }: TextFieldProps) {
  return (
    <Field label={label} hint={hint} wrong={wrong}>
      {(field) => (
        <input
          {...field}
          value={value}
          maxLength={maxLength}
          autoComplete="off"
          onChange={({ target }) => onChange(target.value)}
        />
      )}
    </Field>
  );
}

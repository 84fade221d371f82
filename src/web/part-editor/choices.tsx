// Inputs of the part form that choose: one of a few, yes or no or not known, several of a list.
import { useId } from 'react';

interface PickProps {
  label: string;
  value: string | undefined;
  options: readonly { value: string; words: string }[];
  /** Undefined: not known. */
  onChange: (value: string | undefined) => void;
  none?: string;
  bare?: boolean;
}

/** One of a list, or none. A value that is not in the list stays and is shown. */
export function Pick({ label, value, options, onChange, none = 'not known', bare }: PickProps) {
  const id = useId();
  const strange = value !== undefined && !options.some((option) => option.value === value);
  return (
    <div className="field">
      <label htmlFor={id} className={bare ? 'unseen' : undefined}>
        {label}
      </label>
      <select
        id={id}
        value={value ?? ''}
        onChange={({ target }) => onChange(target.value === '' ? undefined : target.value)}
      >
        <option value="">{none}</option>
        {strange ? <option value={value}>{value}</option> : null}
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.words}
          </option>
        ))}
      </select>
    </div>
  );
}

interface ChecksProps {
  label: string;
  value: readonly string[] | undefined;
  options: readonly { value: string; words: string }[];
  onChange: (value: string[] | undefined) => void;
  /** "None of them" is an answer of its own. */
  orNone?: boolean;
}

/** Several of a list. Nothing said and "none of them" are different answers. */
export function Checks({ label, value, options, onChange, orNone }: ChecksProps) {
  const chosen = new Set(value ?? []);
  const toggled = (option: string) => {
    const next = options.map((known) => known.value).filter((known) => (known === option) !== chosen.has(known));
    const strange = [...chosen].filter((known) => known !== option && !options.some((each) => each.value === known));
    onChange([...next, ...strange]);
  };
  if (options.length === 0) return null;
  return (
    <fieldset className="checks">
      <legend>{label}</legend>
      {options.map((option) => (
        <label key={option.value}>
          <input type="checkbox" checked={chosen.has(option.value)} onChange={() => toggled(option.value)} />
          <span>{option.words}</span>
        </label>
      ))}
      {orNone ? (
        <label>
          <input
            type="checkbox"
            checked={value !== undefined && value.length === 0}
            onChange={({ target }) => onChange(target.checked ? [] : undefined)}
          />
          <span>none of them</span>
        </label>
      ) : null}
    </fieldset>
  );
}

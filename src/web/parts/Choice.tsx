import { type ReactNode, useId } from 'react';

export interface ChoiceOption<Value extends string> {
  value: Value;
  label: ReactNode;
  small?: ReactNode;
}

interface ChoiceProps<Value extends string> {
  legend: string;
  options: readonly ChoiceOption<Value>[];
  value: Value;
  onChange: (value: Value) => void;
  /** Equal widths, so many in a row. */
  columns?: number;
}

/** One of a few, all of them in sight. */
export function Choice<Value extends string>({ legend, options, value, onChange, columns }: ChoiceProps<Value>) {
  const name = useId();
  return (
    <fieldset>
      <legend>{legend}</legend>
      <div className={columns === undefined ? 'choice' : `choice cols-${columns}`}>
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              onChange={() => onChange(option.value)}
            />
            <span>
              {option.label}
              {option.small ? <small>{option.small}</small> : null}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

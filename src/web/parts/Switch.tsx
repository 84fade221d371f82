/** Two or three states side by side, one of them pressed. */
interface SwitchProps<Value extends string> {
  label: string;
  options: readonly { value: Value; label: string }[];
  value: Value;
  onChange: (value: Value) => void;
}

export function Switch<Value extends string>({ label, options, value, onChange }: SwitchProps<Value>) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws its legend, and here the buttons say enough
    <div className="pair2" role="group" aria-label={label}>
      {options.map((option) => (
        <button
          key={option.value}
          type="button"
          aria-pressed={option.value === value}
          onClick={() => onChange(option.value)}
        >
          {option.label}
        </button>
      ))}
    </div>
  );
}

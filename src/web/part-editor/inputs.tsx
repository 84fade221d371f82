// Inputs of the part form: numbers typed or stepped, cable sizes, lists of numbers. What was typed stays as it was typed.
import { useId, useState } from 'react';
import { useNumbers, useSettings } from '../settings.ts';
import {
  areaOf,
  type CableSize,
  cableSizeRange,
  cableSizeText,
  steppedCableSize,
  typedCableSize,
} from './cable-size.ts';
import {
  inRange,
  numberText,
  type Quantity,
  quantityText,
  type Range,
  rangeText,
  stepped,
  typedNumber,
} from './quantity.ts';

/** A value, or that what stands there is none. */
export type Typed<Value> = { value: Value | undefined } | { wrong: string };

interface TypedInputProps<Value> {
  label: string;
  hint?: string | undefined;
  value: Value | undefined;
  onTyped: (typed: Typed<Value>) => void;
  /** Labels are kept for readers where a table's head says them. */
  bare?: boolean;
}

interface NumberInputProps extends TypedInputProps<number> {
  quantity: Quantity;
  range: Range;
  steps?: readonly number[] | undefined;
}

export function NumberInput(props: NumberInputProps) {
  const style = useNumbers();
  const { quantity, range } = props;
  return (
    <StepInput
      {...props}
      unit={quantity.unit}
      show={(value) => numberText(value, style)}
      read={(text) => {
        const value = typedNumber(text, quantity);
        return value !== null && inRange(value, range) ? { value } : { wrong: rangeText(range, quantity, style) };
      }}
      step={(value, way) => stepped(value ?? range.min, way, range, props.steps)}
    />
  );
}

export function CableInput(props: TypedInputProps<CableSize>) {
  const style = useNumbers();
  const bare = useSettings().units === 'imperial' ? 'awg' : 'mm2';
  const { value } = props;
  const area = value !== undefined && 'gauge' in value ? `${numberText(areaOf(value), style)} mm\u00b2` : '';
  return (
    <StepInput
      {...props}
      hint={props.hint ?? (props.bare ? undefined : area || `a bare number is ${bare === 'awg' ? 'AWG' : 'mm\u00b2'}`)}
      unit=""
      show={(size) => cableSizeText(size, style)}
      read={(text) => {
        const size = typedCableSize(text, bare);
        return size === null ? { wrong: cableSizeRange } : { value: size };
      }}
      step={(size, way) => (size === undefined ? { areaMm2: 16 } : steppedCableSize(size, way))}
    />
  );
}

interface NumbersInputProps extends TypedInputProps<readonly number[]> {
  quantity: Quantity;
  range: Range;
}

/** Several numbers with blanks or semicolons between them. */
export function NumbersInput({ quantity, range, ...props }: NumbersInputProps) {
  const style = useNumbers();
  return (
    <StepInput
      {...props}
      unit={quantity.unit}
      show={(values) => values.map((value) => numberText(value, style)).join('  ')}
      read={(text) => {
        const values = text
          .split(/[\s;]+/)
          .filter(Boolean)
          .map((word) => typedNumber(word, quantity));
        const sound = values.every((value) => value !== null && inRange(value, range));
        return sound
          ? { value: values as number[] }
          : { wrong: `${rangeText(range, quantity, style)} Blanks between them.` };
      }}
    />
  );
}

/** What a meter shows: a number or "open". */
export function ReadingInput(props: TypedInputProps<number | 'open'>) {
  const style = useNumbers();
  const range = { min: 0, max: 1e9 };
  return (
    <StepInput
      {...props}
      unit=""
      show={(value) => (value === 'open' ? 'open' : numberText(value, style))}
      read={(text) => {
        if (/^\s*(open|ol)\s*$/i.test(text)) return { value: 'open' as const };
        const value = typedNumber(text, { unit: 'ohm', others: { kohm: 1e3, mohm: 1e6, k: 1e3, v: 1, mv: 1e-3 } });
        return value !== null && inRange(value, range)
          ? { value }
          : { wrong: `A number from 0 up, such as ${quantityText(3.6, { unit: 'ohm' }, style)}, or open.` };
      }}
    />
  );
}

interface StepInputProps<Value> extends TypedInputProps<Value> {
  unit: string;
  show: (value: Value) => string;
  read: (text: string) => Typed<Value>;
  step?: (value: Value | undefined, way: 1 | -1) => Value;
}

function StepInput<Value>({ label, hint, value, onTyped, bare, unit, show, read, step }: StepInputProps<Value>) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const shown = typed ?? (value === undefined ? '' : show(value));
  const take = (text: string) => {
    setTyped(text);
    const next: Typed<Value> = text.trim() === '' ? { value: undefined } : read(text);
    setWrong('wrong' in next ? next.wrong : null);
    onTyped(next);
  };
  const move = (way: 1 | -1) => {
    if (!step) return;
    setTyped(null);
    setWrong(null);
    onTyped({ value: step(value, way) });
  };
  const said = [hint && !bare ? `${id}-hint` : '', wrong ? `${id}-wrong` : ''].filter(Boolean).join(' ');
  return (
    <div className={`field typed${bare ? ' bare' : ''}`}>
      <label htmlFor={id} className={bare ? 'unseen' : undefined}>
        {label}
        {unit && !bare ? <span className="u">{unit}</span> : null}
      </label>
      <div className={`step${step && !bare ? '' : ' plain'}`}>
        <input
          id={id}
          value={shown}
          inputMode={unit === '' ? 'text' : 'decimal'}
          autoComplete="off"
          maxLength={80}
          aria-invalid={wrong !== null}
          aria-describedby={said || undefined}
          onChange={({ target }) => take(target.value)}
          onBlur={() => wrong === null && setTyped(null)}
          onKeyDown={(event) => {
            const way = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : null;
            if (way === null || !step) return;
            event.preventDefault();
            move(way);
          }}
        />
        {step && !bare ? (
          <>
            <button type="button" tabIndex={-1} aria-label={`${label}: less`} onClick={() => move(-1)}>
              <svg viewBox="0 0 16 16" aria-hidden="true">
                <path d="M3 8h10" />
              </svg>
            </button>
            <button type="button" tabIndex={-1} aria-label={`${label}: more`} onClick={() => move(1)}>
              <svg viewBox="0 0 16 16" aria-hidden="true">
                <path d="M3 8h10M8 3v10" />
              </svg>
            </button>
          </>
        ) : null}
      </div>
      {hint && !bare ? (
        <span className="hint" id={`${id}-hint`}>
          {hint}
        </span>
      ) : null}
      {wrong ? (
        <span className="wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </span>
      ) : null}
    </div>
  );
}

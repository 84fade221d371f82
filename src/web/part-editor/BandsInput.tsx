// The equaliser bands of a channel: a kind, where, how much and how wide, each; a boost costs what it lifts.
import { useState } from 'react';
import type { PartOf } from '../../plan/plan.ts';
import { Pick } from './choices.tsx';
import { NumberInput, type Typed } from './inputs.tsx';
import { quantities } from './quantity.ts';

type Band = NonNullable<PartOf<'channel'>['eq']>[number];

const kinds = [
  { value: 'peaking', words: 'peak' },
  { value: 'low-shelf', words: 'low shelf' },
  { value: 'high-shelf', words: 'high shelf' },
] as const;

const fields = [
  { field: 'fHz', label: 'at', quantity: quantities.hertz, range: { min: 1, max: 200_000 } },
  { field: 'gainDb', label: 'gain', quantity: quantities.decibels, range: { min: -40, max: 40 } },
  { field: 'q', label: 'Q', quantity: quantities.number, range: { min: 0.05, max: 50 } },
] as const;

interface BandsInputProps {
  label: string;
  value: readonly Band[] | undefined;
  onTyped: (typed: Typed<unknown>) => void;
}

export function BandsInput({ label, value = [], onTyped }: BandsInputProps) {
  // Bands have no names of their own, and each field keeps what is typed in it: a band that goes takes its fields along.
  const [keys, setKeys] = useState(() => value.map((_, n) => n));
  const give = (bands: readonly Band[]) => onTyped({ value: bands.length === 0 ? undefined : bands });
  const changed = (at: number, change: Partial<Band>) =>
    give(value.map((band, n) => (n === at ? { ...band, ...change } : band)));
  return (
    <fieldset className="bands">
      <legend>{label}</legend>
      {value.map((band, at) => (
        <div className="band" key={keys[at]}>
          <Pick
            label={`Band ${at + 1}`}
            value={band.type}
            options={[...kinds]}
            onChange={(type) => changed(at, { type: (type ?? 'peaking') as Band['type'] })}
          />
          {fields.map(({ field, label: what, quantity, range }) => (
            <NumberInput
              key={field}
              label={`Band ${at + 1} ${what}`}
              quantity={quantity}
              range={range}
              value={band[field]}
              onTyped={(typed) =>
                'wrong' in typed ? onTyped(typed) : changed(at, { [field]: typed.value ?? band[field] })
              }
            />
          ))}
          <button
            type="button"
            className="btn"
            onClick={() => {
              setKeys(keys.filter((_, n) => n !== at));
              give(value.filter((_, n) => n !== at));
            }}
          >
            Remove band {at + 1}
          </button>
        </div>
      ))}
      <button
        type="button"
        className="btn"
        disabled={value.length >= 64}
        onClick={() => {
          setKeys([...keys, Math.max(-1, ...keys) + 1]);
          give([...value, { type: 'peaking', fHz: 100, gainDb: 0, q: 1 }]);
        }}
      >
        Add a band
      </button>
    </fieldset>
  );
}

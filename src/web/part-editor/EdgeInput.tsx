// A crossover edge: not planned yet, none on purpose, or a slope at a frequency.
import type { PartOf } from '../../plan/plan.ts';
import { filterFamilies } from '../../plan/signal-parts.ts';
import { Pick } from './choices.tsx';
import { NumberInput, type Typed } from './inputs.tsx';
import { quantities } from './quantity.ts';

type Edge = PartOf<'channel'>['highPass'];

const familyWords = { butterworth: 'Butterworth', 'linkwitz-riley': 'Linkwitz-Riley', bessel: 'Bessel' } as const;

/** Orders that make sense of a family: two equal halves need an even order. */
const orders = { butterworth: [1, 2, 3, 4, 5, 6, 7, 8], 'linkwitz-riley': [2, 4, 6, 8], bessel: [2, 3, 4, 5, 6, 7, 8] };

const slopes = [1, 2, 3, 4, 5, 6, 7, 8].flatMap((order) =>
  filterFamilies
    .filter((family) => orders[family].includes(order))
    .map((family) => ({ value: `${family} ${order}`, words: `${6 * order} dB/octave ${familyWords[family]}` })),
);

interface EdgeInputProps {
  label: string;
  value: Edge;
  onChange: (edge: Edge) => void;
  onTyped: (typed: Typed<unknown>) => void;
}

export function EdgeInput({ label, value, onChange, onTyped }: EdgeInputProps) {
  const slope = value === undefined ? undefined : value === null ? 'none' : `${value.family} ${value.order}`;
  return (
    <div className="edge">
      <Pick
        label={`${label}, slope`}
        none="not planned yet"
        value={slope}
        options={[{ value: 'none', words: 'none, on purpose' }, ...slopes]}
        onChange={(chosen) => {
          if (chosen === undefined) return onChange(undefined);
          if (chosen === 'none') return onChange(null);
          const [family, order] = chosen.split(' ');
          const fHz = value?.fHz ?? 1000;
          onChange({ family: family as (typeof filterFamilies)[number], order: Number(order), fHz });
        }}
      />
      {value ? (
        <NumberInput
          label={`${label} at`}
          quantity={quantities.hertz}
          range={{ min: 1, max: 200_000 }}
          value={value.fHz}
          onTyped={(typed) =>
            onTyped(
              'value' in typed
                ? { value: typed.value === undefined ? undefined : { ...value, fHz: typed.value } }
                : typed,
            )
          }
        />
      ) : null}
    </div>
  );
}

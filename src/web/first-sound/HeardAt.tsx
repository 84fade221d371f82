// The places of the car as buttons, nose up: tapped where the sound comes from, with the way it moves where that is known.
import { Choice, type ChoiceOption } from '../parts/Choice.tsx';
import type { PlacedButton } from './car-grid.ts';

export type Polarity = '+' | '-' | '?';

const ways: ChoiceOption<Polarity>[] = [
  { value: '+', label: '+', small: 'pushes' },
  { value: '-', label: '\u2212', small: 'pulls' },
  { value: '?', label: '?', small: 'not sure' },
];

interface HeardAtProps {
  grid: readonly PlacedButton[];
  chosen: ReadonlyMap<string, Polarity>;
  change: (chosen: ReadonlyMap<string, Polarity>) => void;
}

export function HeardAt({ grid, chosen, change }: HeardAtProps) {
  const press = (place: string) => {
    const next = new Map(chosen);
    if (!next.delete(place)) next.set(place, '?');
    change(next);
  };
  return (
    <section className="heard-at" aria-label="Where you hear it">
      <div className="car">
        {grid.map(({ place, name, column, row }) => (
          <button
            key={place}
            type="button"
            className="spot"
            aria-pressed={chosen.has(place)}
            style={{ gridColumn: column, gridRow: row }}
            onClick={() => press(place)}
          >
            <b>{place}</b>
            <span>{name}</span>
          </button>
        ))}
      </div>
      {[...chosen].map(([place, polarity]) => (
        <div key={place} className="way">
          <Choice
            legend={`Which way ${place} moves first`}
            columns={3}
            options={ways}
            value={polarity}
            onChange={(value) => change(new Map(chosen).set(place, value))}
          />
        </div>
      ))}
    </section>
  );
}

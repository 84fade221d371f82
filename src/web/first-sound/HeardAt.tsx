// The places of the car as buttons, nose up: tapped where the sound comes from, with the way it moves where that is known.
import type { PlacedButton } from './car-grid.ts';

export type Polarity = '+' | '-' | '?';

const ways: { value: Polarity; sign: string; words: string }[] = [
  { value: '+', sign: '+', words: 'pushes' },
  { value: '-', sign: '\u2212', words: 'pulls' },
  { value: '?', sign: '?', words: 'not sure' },
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
        <fieldset key={place} className="way">
          <legend>Which way {place} moves first</legend>
          <div className="choice cols-3">
            {ways.map(({ value, sign, words }) => (
              <label key={value}>
                <input
                  type="radio"
                  name={`way ${place}`}
                  checked={polarity === value}
                  onChange={() => change(new Map(chosen).set(place, value))}
                />
                <span>
                  {sign}
                  <small>{words}</small>
                </span>
              </label>
            ))}
          </div>
        </fieldset>
      ))}
    </section>
  );
}

// The car from above with the places of the walk, nose up: what is told of each by its frame, its filling and the row beside.
import type { PlacedButton } from '../first-sound/car-grid.ts';
import type { Severity } from '../parts/Severity.tsx';

interface WalkedCarProps {
  grid: readonly PlacedButton[];
  /** By place; absent where nothing is told yet. */
  verdicts: ReadonlyMap<string, Severity>;
}

/** For the eye alone: the rows say the same in words. */
export function WalkedCar({ grid, verdicts }: WalkedCarProps) {
  return (
    <div className="walked" aria-hidden="true">
      {grid.map(({ place, column, row }) => (
        <b key={place} className={verdicts.get(place) ?? 'not-yet'} style={{ gridColumn: column, gridRow: row }}>
          {place}
        </b>
      ))}
    </div>
  );
}

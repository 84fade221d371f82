// What is typed and belongs into no journal yet: kept in this browser, so that a reload loses nothing.
import { useState } from 'react';

/** A name of its own for each screen and what it looks at. */
const placeOf = (name: string): string => `kickpanel.typed.${name}`;

function kept<Value extends object>(name: string): Partial<Value> {
  try {
    const known: unknown = JSON.parse(localStorage.getItem(placeOf(name)) ?? '{}');
    return typeof known === 'object' && known !== null ? (known as Partial<Value>) : {};
  } catch {
    return {};
  }
}

/**
 * State that outlives a reload. Fields that were never typed follow `fresh`.
 *
 * @param name stays the same as long as what it is about does
 */
export function useTyped<Value extends object>(
  name: string,
  fresh: Value,
): [value: Value, type: (value: Value) => void, forget: () => void] {
  const [typed, setTyped] = useState<Partial<Value>>(() => kept(name));
  const type = (value: Value) => {
    const names = Object.keys(value) as (keyof Value)[];
    const changed = Object.fromEntries(
      names.filter((field) => value[field] !== fresh[field] || field in typed).map((field) => [field, value[field]]),
    ) as Partial<Value>;
    setTyped(changed);
    try {
      localStorage.setItem(placeOf(name), JSON.stringify(changed));
    } catch {
      // Still on the screen; only a reload would lose it.
    }
  };
  const forget = () => {
    setTyped({});
    localStorage.removeItem(placeOf(name));
  };
  return [{ ...fresh, ...typed }, type, forget];
}

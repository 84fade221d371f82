// What the server last said, as screens show it.
import { useCallback, useEffect, useSyncExternalStore } from 'react';
import { askFor, known, nothing, onChanged, type Resource, standing } from './known-answers.ts';

function useSubscribe(name: string | null): (listener: () => void) => () => void {
  return useCallback((listener) => (name === null ? () => {} : onChanged(name, listener)), [name]);
}

/** What is known of `name`, shown anew when it changes, and never asked for. */
export const useKnown = (name: string | null): unknown =>
  useSyncExternalStore(useSubscribe(name), () => (name === null ? undefined : known(name)));

/** `ask` must stay the same as long as `name` does. */
export function useResource<Value>(name: string | null, ask: () => Promise<Value>): Resource<Value> {
  const resource = useSyncExternalStore(useSubscribe(name), () => (name === null ? nothing : standing(name)));
  // biome-ignore lint/correctness/useExhaustiveDependencies: the question belongs to the name
  useEffect(() => {
    if (name !== null) askFor(name, ask);
  }, [name]);
  return resource as Resource<Value>;
}

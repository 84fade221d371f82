// Moves between screens without loading the page again, so that a recording or a sound goes on meanwhile.
import { useSyncExternalStore } from 'react';
import { addressOf, type Route, routeOf } from './route.ts';

const listeners = new Set<() => void>();
let shown = location.pathname + location.search;
let route = routeOf(location);

function changed(): void {
  shown = location.pathname + location.search;
  route = routeOf(location);
  for (const listener of listeners) listener();
}

addEventListener('popstate', changed);

export function goTo(next: Route, options: { replace?: boolean } = {}): void {
  const address = addressOf(next);
  if (address === shown) return;
  if (options.replace) history.replaceState(null, '', address);
  else history.pushState(null, '', address);
  changed();
  if (!options.replace) scrollTo(0, 0);
}

function subscribed(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function useRoute(): Route {
  return useSyncExternalStore(subscribed, () => route);
}

// What a network of coils is made of.
import type { Network } from './signal-parts.ts';

/** The terminals in a network, in the order written; one that is wired twice stands there twice. */
export function coilsIn(network: Network): string[] {
  if (typeof network === 'string') return [network];
  return ('s' in network ? network.s : network.p).flatMap(coilsIn);
}

/** The part of a terminal: `S1` of `S1/2`. A part's own id stays as it is. */
export function partOfTerminal(terminal: string): string {
  return terminal.split('/', 1)[0];
}

/** Ids of the drivers in a network, each once. */
export function driversIn(network: Network): string[] {
  return [...new Set(coilsIn(network).map(partOfTerminal))];
}

/** Groups joined in series that have different drivers as members: each entry two driver ids, each pair once. */
export function driversInSeries(network: Network): [string, string][] {
  if (typeof network === 'string') return [];
  if ('p' in network) return network.p.flatMap(driversInSeries);
  const members = network.s.map(driversIn);
  const pairs = members.flatMap((first, n) =>
    members.slice(n + 1).flatMap((second) => first.flatMap((a) => second.map((b): [string, string] => [a, b]))),
  );
  const between = pairs.filter(([a, b]) => a !== b);
  const all = [...between, ...network.s.flatMap(driversInSeries)];
  return [...new Map(all.map((pair) => [[...pair].sort().join(' '), pair])).values()];
}

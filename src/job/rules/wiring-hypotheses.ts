// What one mistake would make of a wiring: each wiring once, however it came about.
import type { WiringHypothesis } from '../../drivers/loads/coil-wiring-from-reading.ts';
import { coilsIn, driversIn, partOfTerminal } from '../../plan/networks.ts';
import type { Network } from '../../plan/signal-parts.ts';

/** A wiring as a text that is the same for the same wiring; null where no current flows. */
function spelled(network: Network, open: ReadonlySet<string>): string | null {
  if (typeof network === 'string') return open.has(network) ? null : network;
  const series = 's' in network;
  const parts = (series ? network.s : network.p).map((part) => spelled(part, open));
  if (series && parts.includes(null)) return null;
  const left = parts.filter((part) => part !== null);
  const sign = series ? 's' : 'p';
  // A group in a group of its own kind is one group.
  const flat = left.flatMap((part) => (part.startsWith(`${sign}(`) ? groupParts(part) : [part]));
  return flat.length === 0 ? null : flat.length === 1 ? flat[0] : `${sign}(${flat.sort().join(',')})`;
}

/** The parts of a spelled group: what stands between its commas, groups kept whole. */
function groupParts(group: string): string[] {
  const parts: string[] = [''];
  let depth = 0;
  for (const sign of group.slice(2, -1)) {
    if (sign === '(') depth++;
    if (sign === ')') depth--;
    if (sign === ',' && depth === 0) parts.push('');
    else parts[parts.length - 1] += sign;
  }
  return parts;
}

/** The network with the coils of one driver joined the other way; null where they are no group of their own. */
function swapped(network: Network, driver: string): Network | null {
  if (typeof network === 'string') return null;
  const parts = 's' in network ? network.s : network.p;
  if (driversIn(network).every((id) => id === driver)) return 's' in network ? { p: parts } : { s: parts };
  const changed = parts.map((part) => swapped(part, driver) ?? part);
  if (changed.every((part, n) => part === parts[n])) return null;
  return 's' in network ? { s: changed } : { p: changed };
}

const opened = (coils: readonly string[]) => new Map(coils.map((coil) => [coil, Number.POSITIVE_INFINITY]));

/**
 * What may be wrong with a wiring by one mistake, after what is planned; the likely first.
 *
 * @param blocked  coils that direct current does not reach: with or without them is one wiring to a meter
 */
export function wiringHypotheses(network: Network, blocked: ReadonlySet<string> = new Set()): WiringHypothesis[] {
  const coils = [...new Set(coilsIn(network))];
  const drivers = driversIn(network);
  const of = (driver: string) => coils.filter((coil) => partOfTerminal(coil) === driver);
  const open = (name: string, names: readonly string[]) => ({ name, network, override: opened(names) });
  const alone = (name: string, names: readonly string[]) => ({ name, network: { p: names } });
  const planned = { name: 'as planned', network };
  const others: WiringHypothesis[] = [
    // Of a single driver that is all its coils side by side or in series, which says more.
    ...(drivers.length < 2 ? [] : drivers).flatMap((driver) => {
      const other = swapped(network, driver);
      return other === null ? [] : [{ name: `coils of ${driver} joined the other way`, network: other }];
    }),
    ...coils.map((coil) => open(`coil ${coil} open`, [coil])),
    ...drivers.map((driver) => open(`driver ${driver} open`, of(driver))),
    alone('all coils side by side', coils),
    { name: 'all coils in series', network: { s: coils } },
    ...drivers.map((driver) => alone(`driver ${driver} alone`, of(driver))),
    ...coils.map((coil) => alone(`coil ${coil} alone`, [coil])),
  ];
  const seen = new Set<string | null>([spelled(network, blocked), null]);
  const different = others.filter(({ network: wired, override }) => {
    const key = spelled(wired as Network, new Set([...blocked, ...(override?.keys() ?? [])]));
    const known = seen.has(key);
    seen.add(key);
    return !known;
  });
  return [
    planned,
    ...different,
    { name: 'a short', network, override: new Map(coils.map((coil) => [coil, 0])) },
    open('a break', coils),
  ];
}

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
  return [
    { name: 'as planned', network },
    ...different(oneMistake(network), new Set([spelled(network, blocked), null]), blocked),
    { name: 'a short', network, override: new Map(coils.map((coil) => [coil, 0])) },
    { name: 'a break', network, override: opened(coils) },
  ];
}

/** Most pairs that are looked at: a channel of eight coils has fewer. */
const PAIRS_MAX = 400;

/**
 * What two mistakes at once would make of a wiring that no single one can be: coils joined another way, and coils open.
 *
 * @param blocked  as in `wiringHypotheses`
 */
export function twoMistakes(network: Network, blocked: ReadonlySet<string> = new Set()): WiringHypothesis[] {
  const known = wiringHypotheses(network, blocked).map(({ network: wired, override }) =>
    spelled(wired as Network, new Set([...blocked, ...openIn(override)])),
  );
  const coils = [...new Set(coilsIn(network))];
  const joined = rejoined(network);
  const pairs: WiringHypothesis[] = [
    ...joined.flatMap((one, n) =>
      joined.slice(n + 1).flatMap((two): WiringHypothesis[] => {
        const both = swapped(one.network, two.driver);
        return both === null ? [] : [{ name: `${one.name} and ${two.name}`, network: both }];
      }),
    ),
    ...joined.flatMap((one) =>
      coils.map((coil) => ({
        name: `${one.name} and coil ${coil} open`,
        network: one.network,
        override: opened([coil]),
      })),
    ),
    ...coils.flatMap((one, n) =>
      coils.slice(n + 1).map((two) => ({
        name: `coil ${one} open and coil ${two} open`,
        network,
        override: opened([one, two]),
      })),
    ),
  ];
  return different(pairs.slice(0, PAIRS_MAX), new Set([...known, null]), blocked);
}

const openIn = (override: WiringHypothesis['override']) =>
  [...(override ?? [])].filter(([, ohm]) => !Number.isFinite(ohm)).map(([coil]) => coil);

/** Each driver's coils joined the other way, where they are a group of their own. */
function rejoined(network: Network): { name: string; driver: string; network: Network }[] {
  return driversIn(network).flatMap((driver) => {
    const other = swapped(network, driver);
    return other === null ? [] : [{ name: `coils of ${driver} joined the other way`, driver, network: other }];
  });
}

/** Those that differ from what is known and from each other. */
function different(
  hypotheses: readonly WiringHypothesis[],
  known: Set<string | null>,
  blocked: ReadonlySet<string>,
): WiringHypothesis[] {
  return hypotheses.filter(({ network, override }) => {
    const key = spelled(network as Network, new Set([...blocked, ...openIn(override)]));
    const seen = known.has(key);
    known.add(key);
    return !seen;
  });
}

/** Every single mistake, the likely first; some come to the same wiring. */
function oneMistake(network: Network): WiringHypothesis[] {
  const coils = [...new Set(coilsIn(network))];
  const drivers = driversIn(network);
  const of = (driver: string) => coils.filter((coil) => partOfTerminal(coil) === driver);
  const open = (name: string, names: readonly string[]) => ({ name, network, override: opened(names) });
  const alone = (name: string, names: readonly string[]) => ({ name, network: { p: names } });
  return [
    // Of a single driver that is all its coils side by side or in series, which says more.
    ...(drivers.length < 2 ? [] : rejoined(network).map(({ name, network: other }) => ({ name, network: other }))),
    ...coils.map((coil) => open(`coil ${coil} open`, [coil])),
    ...drivers.map((driver) => open(`driver ${driver} open`, of(driver))),
    alone('all coils side by side', coils),
    { name: 'all coils in series', network: { s: coils } },
    ...drivers.map((driver) => alone(`driver ${driver} alone`, of(driver))),
    ...coils.map((coil) => alone(`coil ${coil} alone`, [coil])),
  ];
}

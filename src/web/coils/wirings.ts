// The ways in which the coils of some drivers are usually joined, each as a network with its words.
import { divisors } from '../../drivers/loads/coil-wiring-set.ts';
import { coilsIn, partOfTerminal } from '../../plan/networks.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { Network } from '../../plan/signal-parts.ts';

type Driver = Pick<PartOf<'driver'>, 'id' | 'coils'>;

export interface NamedWiring {
  name: string;
  network: Network;
  /** Coils that it leaves unused. */
  open: string[];
}

export const coilsOf = ({ id, coils = 1 }: Driver): string[] =>
  Array.from({ length: coils }, (_, n) => `${id}/${n + 1}`);

/** A group, or its only member. */
export const joined = (way: 's' | 'p', parts: readonly Network[]): Network =>
  parts.length === 1 ? parts[0] : way === 's' ? { s: [...parts] } : { p: [...parts] };

/** `parallel` branches, each with `series` of the parts. */
function grid(parts: readonly Network[], series: number): Network {
  const branches = Array.from({ length: parts.length / series }, (_, n) => parts.slice(n * series, (n + 1) * series));
  return joined(
    'p',
    branches.map((branch) => joined('s', branch)),
  );
}

function gridWords(drivers: number, series: number): string {
  if (drivers === 1) return '';
  if (series === drivers) return 'drivers one after the other';
  if (series === 1) return 'drivers side by side';
  return `${drivers / series} branches of ${series} drivers`;
}

/** Every even wiring of these drivers; for one driver with several coils also the one that leaves coils open. */
export function usualWirings(drivers: readonly Driver[]): NamedWiring[] {
  if (drivers.length === 0) return [];
  const each = drivers.map(coilsOf);
  const coils = each[0].length;
  const like = each.every((list) => list.length === coils);
  if (!like) {
    const all = each.flat();
    return [
      { name: 'all coils one after the other', network: joined('s', all), open: [] },
      { name: 'all coils side by side', network: joined('p', all), open: [] },
    ];
  }
  const ways: { way: 's' | 'p'; words: string }[] =
    coils === 1
      ? [{ way: 's', words: '' }]
      : [
          { way: 's', words: coils === 2 ? 'coil after coil' : 'coils one after the other' },
          { way: 'p', words: 'coils side by side' },
        ];
  const even = ways.flatMap(({ way, words }) =>
    divisors(drivers.length)
      .reverse()
      .map((series) => ({
        name: [words, gridWords(drivers.length, series)].filter((part) => part !== '').join(', ') || 'its coil',
        network: grid(
          each.map((list) => joined(way, list)),
          series,
        ),
        open: [],
      })),
  );
  if (drivers.length > 1 || coils !== 2) return even;
  return [...even, { name: 'one coil, one left open', network: each[0][0], open: [each[0][1]] }];
}

/** The same wiring whatever the order in which it was written. */
export function wiringKey(network: Network): string {
  if (typeof network === 'string') return network;
  const [way, parts] = 's' in network ? (['s', network.s] as const) : (['p', network.p] as const);
  if (parts.length === 1) return wiringKey(parts[0]);
  return `${way}(${parts.map(wiringKey).sort().join(' ')})`;
}

/** A wiring in words: `1 and 2 one after the other`. */
export function wiringWords(network: Network | undefined, drivers: readonly Driver[]): string {
  if (network === undefined) return 'not wired yet';
  const key = wiringKey(network);
  const known = usualWirings(drivers).find((wiring) => wiringKey(wiring.network) === key);
  if (known !== undefined) return known.name;
  const coils = coilsIn(network);
  return `${coils.length} coils of ${new Set(coils.map(partOfTerminal)).size} drivers, in a way of its own`;
}

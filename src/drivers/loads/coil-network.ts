// Coils wired in series and parallel: resistance of a network, and where its power goes.
import { calculation } from '../../base/calculation.ts';
import { type Input, named, resistance } from '../../base/calculation-inputs.ts';
import { type Refusal, refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';

/** A coil by its name, or a group in series (`s`) or in parallel (`p`), nested freely. */
export type CoilNetwork = string | { s: readonly CoilNetwork[] } | { p: readonly CoilNetwork[] };

/** Resistances by coil name in ohm; Infinity is a coil that is not connected, 0 a short. */
export type CoilOhms = ReadonlyMap<string, number>;

/** Nesting beyond any loom: guards the recursion against made-up input. */
const depthMax = 64;

const groupOf = (network: Exclude<CoilNetwork, string>) =>
  's' in network
    ? { series: true, parts: network.s }
    : { series: false, parts: (network as { p: readonly CoilNetwork[] }).p };

/** Names of the coils in a network, in the order written; a name used twice comes twice. */
export function coilNames(network: CoilNetwork): string[] {
  return typeof network === 'string' ? [network] : groupOf(network).parts.flatMap(coilNames);
}

/**
 * Resistance of a network, ohm: series adds, parallel adds conductances.
 *
 * @param coils every name of the network; 0 or more, Infinity for open
 * @returns 0 for a short, Infinity where no current can flow
 * @throws RangeError  a coil without a resistance
 */
export function networkOhm(network: CoilNetwork, coils: CoilOhms): number {
  if (typeof network === 'string') {
    const ohm = coils.get(network);
    if (ohm === undefined) throw new RangeError(`coil ${network} must have a resistance`);
    return ohm;
  }
  const { series, parts } = groupOf(network);
  const ohms = parts.map((part) => networkOhm(part, coils));
  if (series) return ohms.reduce((sum, ohm) => sum + ohm, 0);
  return ohms.includes(0) ? 0 : 1 / ohms.reduce((sum, ohm) => sum + 1 / ohm, 0);
}

export interface NetworkShares {
  /** `"open"` where no current can flow. */
  ohm: number | 'open';
  /** Share of the power in each coil, together 1; all 0 in an open network. */
  shares: Record<string, number>;
  /** Whether all coils work equally. */
  balanced: boolean;
  totalAmpsAtOneVolt: number;
}

/**
 * How a network shares power among its coils: in series as the resistances, in parallel as the conductances.
 *
 * @param network each coil once
 * @param coils   see `networkOhm`
 * @returns refused as `no-solution` where the whole network is a dead short
 * Source: circuit laws.
 * @example networkShares({ s: ['A', { p: ['B', 'C'] }] }, new Map([['A', 4], ['B', 4], ['C', 4]])) // shares 2/3, 1/6, 1/6
 */
export function networkShares(network: CoilNetwork, coils: CoilOhms): Result<NetworkShares> {
  const total = networkOhm(network, coils);
  if (total === 0) {
    return refused(
      'no-solution',
      'network',
      'The whole network is a dead short.',
      'Find the short before anything is switched on.',
    );
  }
  const shares: [string, number][] = [];
  const walk = (part: CoilNetwork, share: number): void => {
    if (typeof part === 'string') {
      shares.push([part, share]);
      return;
    }
    const { series, parts } = groupOf(part);
    const groupOhm = networkOhm(part, coils);
    for (const inner of parts) {
      const ohm = networkOhm(inner, coils);
      const ratio = series ? ohm / groupOhm : groupOhm / ohm;
      // A short or a break takes no power, and neither does what it shorts or cuts off.
      walk(inner, Number.isFinite(ratio) ? share * ratio : 0);
    }
  };
  const open = !Number.isFinite(total);
  walk(network, open ? 0 : 1);
  const values = shares.map(([, share]) => share);
  const least = values.reduce((a, b) => Math.min(a, b));
  const most = values.reduce((a, b) => Math.max(a, b));
  return success({
    ohm: open ? 'open' : total,
    shares: Object.fromEntries(shares),
    balanced: least > 0 && most - least <= 1e-9 * most,
    totalAmpsAtOneVolt: open ? 0 : 1 / total,
  });
}

function readNetwork(value: unknown, where: string, say: (fault: Refusal) => void, depth: number): CoilNetwork {
  const mend = 'Write a coil as its name, a group as {"s": [...]} or {"p": [...]}.';
  const bad = (code: Refusal['code'], message: string): CoilNetwork => {
    say({ code, message, where, mend });
    return '';
  };
  if (value === undefined || value === null || value === '') return bad('missing', `${where} is missing.`);
  if (typeof value === 'string') return value;
  if (depth > depthMax) {
    const message = `The network is nested more than ${depthMax} deep.`;
    say({ code: 'unsupported', message, where: where.slice(0, 40), mend });
    return '';
  }
  if (typeof value !== 'object' || Array.isArray(value)) return bad('unsupported', `${where} is no network of coils.`);
  const keys = Object.keys(value);
  if (keys.length === 0) return bad('missing', `${where} is empty.`);
  const [key] = keys;
  if (keys.length > 1 || (key !== 's' && key !== 'p')) {
    return bad('unsupported', `${where} must have "s" for series or "p" for parallel, and nothing else.`);
  }
  const parts: unknown = (value as Record<string, unknown>)[key];
  if (parts === null || (Array.isArray(parts) && parts.length === 0))
    return bad('missing', `${where}.${key} is empty.`);
  if (!Array.isArray(parts)) return bad('unsupported', `${where}.${key} must be a list.`);
  const read = parts.map((part, index) => readNetwork(part, `${where}.${key}[${index}]`, say, depth + 1));
  return key === 's' ? { s: read } : { p: read };
}

/** A network as an input; its names are held against the coils by `coilsMissing`. */
export const networkInput: Input<CoilNetwork> = {
  form: 'coil name, {"s": [...]} in series or {"p": [...]} in parallel',
  read: (value, where, say) => readNetwork(value, where, say, 0),
};

/** Coils by name, each 0 ohm or more, or "open". */
export const coilsInput = named(resistance({ min: 0 }));

/** Coils that a network names and that have no resistance, as `missing`. */
export function coilsMissing(network: CoilNetwork, coils: CoilOhms): Refusal[] {
  // A part that could not be read is said to be wrong by itself; its name is empty.
  const unknown = new Set(coilNames(network).filter((name) => name !== '' && !coils.has(name)));
  return [...unknown].map((name) => {
    const short = name.slice(0, 40);
    const message = `Coil "${short}" of the network has no resistance.`;
    return { code: 'missing', message, where: `coils.${short}`, mend: 'Give its ohms, or "open".' };
  });
}

/** The network, refused where it names a coil twice. */
export function namedOnce(network: CoilNetwork, where = 'network'): Result<CoilNetwork> {
  const seen = new Set<string>();
  for (const name of coilNames(network)) {
    if (seen.has(name)) {
      const message = `Coil "${name.slice(0, 40)}" stands in the network twice.`;
      return refused('contradiction', where, message, 'Name each coil once.');
    }
    seen.add(name);
  }
  return success(network);
}

export const networkSharesCalculation = calculation({
  name: 'networkShares',
  about: 'resistance of coils wired together, and how they share the power',
  inputs: { network: networkInput, coils: coilsInput },
  alsoMissing: ({ network, coils }) => coilsMissing(network, coils),
  answer({ network, coils }) {
    const sound = namedOnce(network);
    return sound.ok ? networkShares(network, coils) : sound;
  },
});

// Several alike drivers on one channel: what each of them gets of its volts.
import { networkOhm } from '../../drivers/loads/coil-network.ts';
import { coilsIn, driversIn } from '../../plan/networks.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { Network } from '../../plan/signal-parts.ts';
import { coilOhms } from './loads.ts';
import type { Lane, PlanView } from './plan-view.ts';

export interface WiringShare {
  /** The driver's own coils as they are wired. */
  network: Network;
  /** Volts at the driver over volts of the channel. */
  voltShare: number;
  /** Ohms of the channel's whole load over those of the driver. */
  loadRatio: number;
}

/** What must be the same for drivers to behave as one. */
const sheet = [
  ...(['coils', 'coilOhm', 'reOhm', 'fsHz', 'qms', 'qes', 'sdCm2', 'mmsG', 'vasL', 'leMh'] as const),
  ...(['xmaxMm', 'thermalW'] as const),
];
const box = ['kind', 'netL', 'rearL', 'tuningHz', 'portAreaCm2', 'fillGain'] as const;

function alike({ part }: PlanView, a: PartOf<'driver'>, b: PartOf<'driver'>): boolean {
  const [first, second] = [part('enclosure', a.enclosure), part('enclosure', b.enclosure)];
  return (
    sheet.every((field) => a[field] === b[field]) &&
    (first?.id === second?.id || box.every((field) => first?.[field] === second?.[field]))
  );
}

/** The group of a network that is one driver alone, with its part of the volts; undefined where there is none. */
function find(
  network: Network,
  driver: string,
  ohms: ReadonlyMap<string, number>,
  share: number,
): WiringShare | undefined {
  if (driversIn(network).every((id) => id === driver)) return { network, voltShare: share, loadRatio: 1 };
  if (typeof network === 'string') return undefined;
  const parts = 's' in network ? network.s : network.p;
  const found = parts.filter((part) => driversIn(part).includes(driver));
  // A driver with coils in two places has no volts of its own.
  if (found.length !== 1) return undefined;
  const [part] = found;
  const ratio = 's' in network ? networkOhm(part, ohms) / networkOhm(network, ohms) : 1;
  return find(part, driver, ohms, share * ratio);
}

/**
 * How a driver is wired on its channel. Alike drivers that share evenly behave as one, at every frequency; of others it is
 * not told here.
 */
export function wiringShare(view: PlanView, lane: Lane, driver: PartOf<'driver'>): WiringShare | undefined {
  const { network } = lane.load;
  if (network === undefined) return undefined;
  if (lane.drivers.length === 1) return { network, voltShare: 1, loadRatio: 1 };
  const ohms = coilOhms(lane, 'nominal') ?? coilOhms(lane, 're');
  const coils = coilsIn(network);
  if (ohms === undefined || new Set(coils).size < coils.length) return undefined;
  if (!lane.drivers.every((other) => alike(view, driver, other))) return undefined;
  const shares = lane.drivers.map(({ id }) => find(network, id, ohms, 1));
  const own = shares[lane.drivers.findIndex(({ id }) => id === driver.id)];
  if (own === undefined) return undefined;
  const even = shares.every((share) => share !== undefined && Math.abs(share.voltShare / own.voltShare - 1) < 1e-6);
  if (!even) return undefined;
  return { ...own, loadRatio: networkOhm(network, ohms) / networkOhm(own.network, ohms) };
}

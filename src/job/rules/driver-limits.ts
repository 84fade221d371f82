// A driver of the plan as the forecast needs it, with the amplifier and the filters before it.
import type { Box } from '../../drivers/box.ts';
import { qlDefault } from '../../drivers/box.ts';
import { type Driver, massFromVas } from '../../drivers/driver.ts';
import type { DrivenDriver } from '../../drivers/limits.ts';
import { networkOhm } from '../../drivers/loads/coil-network.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { PlannedFilter } from '../../signals/filters/crossover-level.ts';
import { coilOhms, laneDrive } from './loads.ts';
import type { Lane, PlanView } from './plan-view.ts';

/** The system before a driver, or what is not known of it. */
export type Forecast = { driven: DrivenDriver; ampVrms: number } | { needs: string };

/** The box by its enclosure; none is an infinite baffle, as a door is. Undefined where it is not known well enough. */
function boxOf(enclosure: PartOf<'enclosure'> | undefined): Box | undefined {
  const kind = enclosure?.kind ?? 'infinite-baffle';
  if (kind === 'infinite-baffle') return { kind };
  const { netL, tuningHz: fbHz, fillGain = 1 } = enclosure ?? {};
  if (netL === undefined) return undefined;
  const vbM3 = netL / 1000;
  if (kind === 'sealed') return { kind, vbM3, fillGain };
  return kind === 'vented' && fbHz !== undefined ? { kind, vbM3, fillGain, fbHz, ql: qlDefault } : undefined;
}

/** The driver by its sheet, `reOhm` that of its coils as they are wired; undefined where the sheet is not complete. */
function driverOf(
  { fsHz, qms, qes, sdCm2, mmsG, vasL, leMh = 0 }: PartOf<'driver'>,
  reOhm: number,
): Driver | undefined {
  if (fsHz === undefined || qms === undefined || qes === undefined || sdCm2 === undefined) return undefined;
  const sdM2 = sdCm2 / 1e4;
  const mmsKg =
    mmsG !== undefined ? mmsG / 1000 : vasL === undefined ? undefined : massFromVas(fsHz, sdM2, vasL / 1000);
  return mmsKg === undefined ? undefined : { fsHz, reOhm, qms, qes, sdM2, mmsKg, coil: { leH: leMh / 1000 } };
}

/** High- and low-pass of the channel; undefined where one is not planned yet or has no closed form. */
function filtersOf(channel: PartOf<'channel'> | undefined): PlannedFilter[] | undefined {
  if (channel?.highPass === undefined) return undefined;
  const filters: PlannedFilter[] = [];
  for (const [type, edge] of [
    ['hp', channel.highPass],
    ['lp', channel.lowPass],
  ] as const) {
    if (edge === undefined || edge === null) continue;
    const { family, order, fHz: hz } = edge;
    if (family === 'bessel' || (family === 'linkwitz-riley' && order % 2 !== 0)) return undefined;
    filters.push({ type, family, order, hz });
  }
  return filters;
}

/**
 * What drives a driver and what it bears. Where several drivers share a channel their share of its volts depends on all
 * of them: that is not told here.
 */
export function forecastOf({ part }: PlanView, lane: Lane, driver: PartOf<'driver'>): Forecast {
  if (lane.drivers.length !== 1) return { needs: 'a channel of its own' };
  const drive = laneDrive(lane);
  if (drive === undefined) return { needs: 'the power of its amplifier into its load' };
  const ohms = coilOhms(lane, 're');
  const { network } = lane.load;
  if (ohms === undefined || network === undefined) return { needs: 'its direct-current resistance' };
  const found = driverOf(driver, networkOhm(network, ohms));
  if (found === undefined) return { needs: 'its resonance, both its Qs, its area and its moving mass' };
  if (driver.xmaxMm === undefined) return { needs: 'how far its cone may move' };
  const box = boxOf(part('enclosure', driver.enclosure));
  if (box === undefined) return { needs: 'the volume and tuning of its box' };
  const filters = filtersOf(lane.channels.at(0));
  if (filters === undefined) return { needs: 'the crossover of its channel' };
  return { driven: { driver: found, box, sourceOhm: 0, xmaxM: driver.xmaxMm / 1000, filters }, ampVrms: drive.volt };
}

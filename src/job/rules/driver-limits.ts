// A driver of the plan as the forecast needs it, with the amplifier and the filters before it.
import type { Box } from '../../drivers/box.ts';
import { qlDefault } from '../../drivers/box.ts';
import { type Driver, massFromVas } from '../../drivers/driver.ts';
import { bindingLimit, type DrivenDriver } from '../../drivers/limits.ts';
import { networkOhm } from '../../drivers/loads/coil-network.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { PlannedFilter } from '../../signals/filters/crossover-level.ts';
import { leadOhm } from './lead-readings.ts';
import { coilOhms, laneDrive } from './loads.ts';
import type { Lane, PlanView } from './plan-view.ts';
import type { Outcome } from './rule.ts';
import { wiringShare } from './wiring-share.ts';

/** The system before a driver, or what is not known of it. */
export type Forecast = { driven: DrivenDriver; ampVrms: number } | { needs: string };

/**
 * The box by its enclosure; none is an infinite baffle, as a door is. Alike drivers in one box have each their share of
 * its air and ports. Undefined where it is not known well enough.
 */
function boxOf(enclosure: PartOf<'enclosure'> | undefined, drivers: number): Box | undefined {
  const kind = enclosure?.kind ?? 'infinite-baffle';
  if (kind === 'infinite-baffle') return { kind };
  const { netL, rearL, tuningHz: fbHz, fillGain = 1, portAreaCm2 } = enclosure ?? {};
  if (netL === undefined) return undefined;
  const share = 1 / Math.max(1, drivers);
  const vbM3 = (share * netL) / 1000;
  if (kind === 'sealed') return { kind, vbM3, fillGain };
  if (fbHz === undefined) return undefined;
  const port = portAreaCm2 === undefined ? {} : { portAreaM2: (share * portAreaCm2) / 1e4 };
  const ported = { vbM3, fillGain, fbHz, ql: qlDefault, ...port };
  if (kind === 'vented') return { kind, ...ported };
  return rearL === undefined ? undefined : { kind, vrM3: (share * rearL) / 1000, ...ported };
}

/** How many drivers sit in an enclosure. */
export function driversInBox({ plan }: PlanView, enclosure: string): number {
  return plan.driver.filter((driver) => driver.enclosure === enclosure).length;
}

/** The driver by its sheet, `reOhm` that of its coils as they are wired; undefined where the sheet is not complete. */
export function driverOf(
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
export function filtersOf(channel: PartOf<'channel'> | undefined): PlannedFilter[] | undefined {
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

/** Both conductors of the one lead of a channel, ohm; 0 where there is none of known size. */
function leadOhmOf({ plan }: PlanView, { load }: Lane): number {
  const leads = plan.lead.filter(({ from }) => from !== undefined && from === load.amplifier);
  return leads.length === 1 ? (leadOhm(leads[0]) ?? 0) : 0;
}

/**
 * What drives a driver and what it bears. Alike drivers on one channel have each their share; where they differ their
 * share of its volts depends on all of them: that is not told here.
 */
export function forecastOf(view: PlanView, lane: Lane, driver: PartOf<'driver'>): Forecast {
  const wired = wiringShare(view, lane, driver);
  if (wired === undefined) return { needs: 'a channel of its own' };
  const drive = laneDrive(lane);
  if (drive === undefined) return { needs: 'the power of its amplifier into its load' };
  const ohms = coilOhms(lane, 're');
  if (ohms === undefined) return { needs: 'its direct-current resistance' };
  const found = driverOf(driver, networkOhm(wired.network, ohms));
  if (found === undefined) return { needs: 'its resonance, both its Qs, its area and its moving mass' };
  if (driver.xmaxMm === undefined) return { needs: 'how far its cone may move' };
  const enclosure = view.part('enclosure', driver.enclosure);
  const box = boxOf(enclosure, enclosure === undefined ? 1 : driversInBox(view, enclosure.id));
  if (box === undefined) return { needs: 'the volume and tuning of its box' };
  const filters = filtersOf(lane.channels.at(0));
  if (filters === undefined) return { needs: 'the crossover of its channel' };
  const sourceOhm = leadOhmOf(view, lane) / wired.loadRatio;
  return {
    driven: { driver: found, box, sourceOhm, xmaxM: driver.xmaxMm / 1000, filters, eq: lane.channels.at(0)?.eq ?? [] },
    ampVrms: drive.volt * wired.voltShare,
  };
}

/** Where music has power. */
const FROM_HZ = 20;
const TO_HZ = 20_000;
/** 96 an octave. */
const POINTS = 960;

type KnownLimit = ReturnType<typeof bindingLimit> & { ampVrms: number };
type MusicLimit = { needs: string } | KnownLimit;

/** Lanes are made anew for each view of a plan, so what is kept for one never outlives the plan that it was found for. */
const musicLimits = new WeakMap<Lane, Map<string, MusicLimit>>();

/** Which limit music meets first on a driver of its own channel, at the amplifier's clip voltage; found once for each. */
function musicLimit(view: PlanView, lane: Lane, driver: PartOf<'driver'>): MusicLimit {
  const known = musicLimits.get(lane) ?? new Map<string, MusicLimit>();
  musicLimits.set(lane, known);
  const before = known.get(driver.id);
  if (before !== undefined) return before;
  const found = foundLimit(view, lane, driver);
  known.set(driver.id, found);
  return found;
}

function foundLimit(view: PlanView, lane: Lane, driver: PartOf<'driver'>): MusicLimit {
  const forecast = forecastOf(view, lane, driver);
  if ('needs' in forecast) return forecast;
  if (driver.thermalW === undefined) return { needs: 'the power that it stands' };
  const { driven, ampVrms } = forecast;
  const power = { thermalW: driver.thermalW, duty: 1, ampVrms };
  return { ...bindingLimit(driven, power, FROM_HZ, TO_HZ, POINTS), ampVrms };
}

interface AtItsLimit {
  place: string;
  lane: Lane;
  driver: PartOf<'driver'>;
  found: KnownLimit;
}

/** What a rule says of each driver on a channel of its own, by the limit that it meets first; or what it needs to know. */
export function ofEachMusicLimit(view: PlanView, judge: (at: AtItsLimit) => Outcome): Outcome[] {
  return view.plan.driver.flatMap((driver) =>
    view.lanesOf(driver.id).map((lane) => {
      const place = `driver ${driver.id}`;
      if (lane.load.passive !== undefined) return null;
      const found = musicLimit(view, lane, driver);
      return 'needs' in found ? { place, needs: found.needs } : judge({ place, lane, driver, found });
    }),
  );
}

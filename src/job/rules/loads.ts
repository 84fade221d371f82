// What the loads of the plan are, and what goes into them.

import { networkOhm } from '../../drivers/loads/coil-network.ts';
import { bridgedView, loadPower, lowestLoad } from '../../drivers/loads/load-power.ts';
import { coilsIn, partOfTerminal } from '../../plan/networks.ts';
import type { Lane, PlanView } from './plan-view.ts';

/** Ohms of each coil of a lane, `nominal` by its label or `re` by direct current; undefined where one is not known. */
export function coilOhms({ load, drivers }: Lane, which: 'nominal' | 're'): Map<string, number> | undefined {
  const byDriver = new Map(drivers.map((driver) => [driver.id, which === 'nominal' ? driver.coilOhm : driver.reOhm]));
  const ohms = new Map<string, number>();
  for (const coil of load.network === undefined ? [] : coilsIn(load.network)) {
    const ohm = byDriver.get(partOfTerminal(coil));
    if (ohm === undefined) return undefined;
    ohms.set(coil, ohm);
  }
  return ohms.size === 0 ? undefined : ohms;
}

/** What the amplifier sees by the labels, ohm; undefined where a coil is not known. */
export function nominalOhm(lane: Lane): number | undefined {
  const ohms = coilOhms(lane, 'nominal');
  return ohms === undefined || lane.load.network === undefined ? undefined : networkOhm(lane.load.network, ohms);
}

/** Lowest load of the channel, or of the bridged pair, ohm; undefined where the amplifier does not say. */
export function minimumOhm({ output, load }: Lane): number | undefined {
  if (output === undefined) return undefined;
  const listed = (output.ratings ?? []).map(({ ohm }) => ohm);
  const channel = output.minimumOhm ?? (listed.length === 0 ? undefined : Math.min(...listed));
  if (channel === undefined) return undefined;
  return load.bridgedWith === undefined ? channel : 2 * channel;
}

export interface LaneDrive {
  watt: number;
  /** RMS at the load, at the limit of the amplifier. */
  volt: number;
  ohm: number;
}

/** What the amplifier can give into the load; undefined where that is not known, or the load is too low. */
export function laneDrive(lane: Lane): LaneDrive | undefined {
  const ohm = nominalOhm(lane);
  const listed = lane.output?.ratings;
  if (ohm === undefined || listed === undefined) return undefined;
  const ratings = new Map(listed.map(({ ohm: at, powerW }) => [at, powerW]));
  const least = lane.output?.minimumOhm ?? lowestLoad(ratings);
  if (lane.load.bridgedWith === undefined) {
    const power = loadPower(ratings, ohm, least);
    return power.ok ? { watt: power.value.watt, volt: power.value.volt, ohm } : undefined;
  }
  const bridged = bridgedView(ratings, ohm, least);
  return bridged.ok ? { watt: bridged.value.bridgedW, volt: bridged.value.bridgedV, ohm } : undefined;
}

/** Lanes of an amplifier. */
export function lanesOfAmplifier({ lanes }: PlanView, id: string): Lane[] {
  return lanes.filter(({ amplifier }) => amplifier?.id === id);
}

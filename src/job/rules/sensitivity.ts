// How loud a driver of the plan is for the volts that its channel gives.
import type { PartOf } from '../../plan/plan.ts';
import { nominalOhm } from './loads.ts';
import type { Lane } from './plan-view.ts';

/**
 * Level for 2.83 V on its channel at 1 m as it is wired, dB; or what is not known of it. 1 W by its label is sqrt(ohm) volts;
 * n alike drivers share it and add up: 10 log10 n more.
 */
export function level283Db(lane: Lane, driver: PartOf<'driver'>): { levelDb: number } | { needs: string } {
  const { sensitivityDb, sensitivityAt, coils = 1 } = driver;
  if (sensitivityDb === undefined) return { needs: 'its sensitivity' };
  if (sensitivityAt === undefined) return { needs: 'whether its sensitivity is for 1 W or for 2.83 V' };
  const like = lane.drivers.every((other) => other.sensitivityDb === sensitivityDb && other.coilOhm === driver.coilOhm);
  const single = lane.drivers.length === 1;
  if (!like) return { needs: 'a channel of its own' };
  // A sheet does not say how several coils were wired for 2.83 V.
  if (sensitivityAt === '2.83V')
    return coils > 1 || !single ? { needs: 'its sensitivity for 1 W' } : { levelDb: sensitivityDb };
  const ohm = nominalOhm(lane);
  if (ohm === undefined) return { needs: 'the ohms of its coils' };
  return { levelDb: sensitivityDb + 10 * Math.log10((8 / ohm) * lane.drivers.length) };
}

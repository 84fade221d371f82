// How long a battery plays with the engine off.
import { calculation } from '../base/calculation.ts';
import { number, orElse } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';

/**
 * Time until the usable part of the charge is gone: t = H (C / (I H))^k * usable.
 *
 * @param capacityAh     above 0, at the rate of `ratedHours` (above 0, usually 20)
 * @param currentA       above 0
 * @param usableFraction above 0, to 1; 0.5 keeps enough for the start, 0.3 spares a starter battery
 * @param peukert        1 or more; flooded 1.2 to 1.3, mat 1.1 to 1.15, lithium 1.02 to 1.05
 * Source: W. Peukert, Elektrotechnische Zeitschrift 20, 1897, 287-288.
 */
export function batteryTime(given: {
  capacityAh: number;
  currentA: number;
  usableFraction: number;
  ratedHours: number;
  peukert: number;
}): { hours: number; minutes: number; chargeAh: number } {
  const { capacityAh, currentA, usableFraction, ratedHours, peukert } = given;
  const hours = ratedHours * (capacityAh / (currentA * ratedHours)) ** peukert * usableFraction;
  return { hours, minutes: 60 * hours, chargeAh: currentA * hours };
}

export const batteryTimeCalculation = calculation({
  name: 'batteryTime',
  about: 'how long a battery lasts with the engine off',
  caution: 'Lead-acid batteries gas when charged: no sparks, ventilate, a fuse at the terminal.',
  inputs: {
    capacityAh: number('Ah', { above: 0 }),
    currentA: number('A', { above: 0 }),
    usableFraction: number('', { above: 0, max: 1 }),
    ratedHours: orElse(number('h', { above: 0 }), 20),
    peukert: orElse(number('', { min: 1 }), 1.15),
  },
  answer: (values) => success(batteryTime(values)),
});

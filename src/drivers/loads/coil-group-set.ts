// The practical wirings of like drivers: coils of each joined first, then the drivers in a grid.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';
import { divisors } from './coil-wiring-set.ts';

/** One grid: `parallel` branches of `series` drivers each. */
export interface GroupWiring {
  coils: 'single' | 'coils-parallel' | 'coils-series';
  series: number;
  parallel: number;
  ohm: number;
}

/**
 * All grids of like drivers, coils joined the same way on each; every coil works equally in all of them.
 *
 * @param group.drivers        whole, 1 .. 1000
 * @param group.coilsPerDriver whole, 1 .. 16
 * @param group.coilOhm        above 0
 * @returns rising in ohm, then by the word for the coils
 * Source: R = Z s / p for s in series in each of p branches.
 */
export function groupSet(group: { drivers: number; coilsPerDriver: number; coilOhm: number }): GroupWiring[] {
  const { drivers, coilsPerDriver, coilOhm } = group;
  const joined: [GroupWiring['coils'], number][] =
    coilsPerDriver === 1
      ? [['single', coilOhm]]
      : [
          ['coils-parallel', coilOhm / coilsPerDriver],
          ['coils-series', coilOhm * coilsPerDriver],
        ];
  return joined
    .flatMap(([coils, ohm]) =>
      divisors(drivers).map((series) => {
        const parallel = drivers / series;
        return { coils, series, parallel, ohm: (ohm * series) / parallel };
      }),
    )
    .sort((a, b) => (Math.abs(a.ohm - b.ohm) <= 1e-9 * a.ohm ? (a.coils < b.coils ? -1 : 1) : a.ohm - b.ohm));
}

export const groupSetCalculation = calculation({
  name: 'groupSet',
  about: 'practical wirings of like drivers, all coils working equally',
  caution: 'A load below what the amplifier takes may destroy it: check the minimum, bridged twice of it.',
  inputs: {
    drivers: number('', { min: 1, max: 1000, whole: true }),
    coilsPerDriver: number('', { min: 1, max: 16, whole: true }),
    coilOhm: number('ohm', { above: 0 }),
  },
  answer: (values) => success({ balanced: groupSet(values) }),
});

import { driversInSeries } from '../../plan/networks.ts';
import type { Rule } from './rule.ts';
import { called } from './words.ts';

/** L-05. Like drivers in series keep their damping; unlike ones bend each other's response. */
export const unlikeDriversInSeries: Rule = {
  id: 'L-05',
  code: 'unlike-drivers-in-series',
  why: 'The impedance of each shapes the voltage of the other.',
  check: ({ plan, part }) =>
    plan.load.flatMap(({ id, network }) =>
      (network === undefined ? [] : driversInSeries(network)).map(([a, b]) => {
        const place = `load ${id}`;
        const [first, second] = [part('driver', a), part('driver', b)];
        if (first === undefined || second === undefined) return null;
        if (first.model === undefined || second.model === undefined)
          return { place, needs: `which models ${a} and ${b} are` };
        if (first.make === second.make && first.model === second.model && first.coilOhm === second.coilOhm) return null;
        const message = `${called(first)} and ${called(second)} differ and are in series: response and damping of both change.`;
        return {
          severity: 'fix',
          place,
          message,
          values: { first: a, second: b },
          clears: 'Put like drivers in series, or unlike ones side by side.',
        };
      }),
    ),
};

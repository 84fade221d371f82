import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** Resistance against copper of the same size: IEC 60028, ASTM B566, EC aluminium at 61 % IACS. */
const againstCopper = {
  'copper-clad-aluminium-15': 1.55,
  'copper-clad-aluminium-10': 1.59,
  aluminium: 1.64,
  unknown: 1.59,
} as const;

/** E-16. A cable of unknown make is taken as clad with 10 % copper. Current falls with the root of the resistance. */
export const cableNotCopper: Rule = {
  id: 'E-16',
  code: 'cable-not-copper',
  why: 'Clad aluminium of a given size gets warmer and loses more voltage than copper of that size.',
  check: ({ plan }) =>
    [...plan.run.map((part) => ({ kind: 'run', part })), ...plan.ground.map((part) => ({ kind: 'ground', part }))].map(
      ({ kind, part: { id, material } }) => {
        const place = `${kind} ${id}`;
        if (material === undefined) return { place, needs: 'what its cable is made of' };
        if (material === 'copper') return null;
        const ratio = againstCopper[material];
        const moreResistancePct = (ratio - 1) * 100;
        const lessCurrentPct = (1 - 1 / Math.sqrt(ratio)) * 100;
        const what =
          material === 'unknown'
            ? 'of a metal that nobody knows, so it counts as copper-clad aluminium'
            : material.replaceAll(/-(?=\d)/g, ' ').replace('copper-clad-', 'copper-clad ');
        const message = `${id} is ${what}: ${said(moreResistancePct)} % more resistance, ${said(lessCurrentPct)} % less current than copper of that size.`;
        const clears = 'Use copper, or look into the cut end and record what it is.';
        return { severity: 'fix', place, message, values: { material, moreResistancePct, lessCurrentPct }, clears };
      },
    ),
};

import type { Rule } from './rule.ts';
import { listed } from './words.ts';

const words = {
  fuel: 'a fuel line',
  brake: 'a brake pipe',
  steering: 'the steering',
  airbag: 'an airbag part',
  'high-voltage': 'a high-voltage cable',
} as const;

/** E-20. Nearer than 0.1 m counts. */
export const routePassesDanger: Rule = {
  id: 'E-20',
  code: 'route-passes-danger',
  why: 'A chafed cable beside fuel, brakes, steering, an airbag or high voltage hurts people.',
  check: ({ plan }) =>
    [...plan.run.map((part) => ({ kind: 'run', part })), ...plan.lead.map((part) => ({ kind: 'lead', part }))].map(
      ({ kind, part: { id, near } }) => {
        const place = `${kind} ${id}`;
        if (near === undefined) return { place, needs: 'what its route passes' };
        if (near.length === 0) return null;
        const things = listed(near.map((danger) => words[danger]));
        const message = `The route of ${id} passes ${things}. Move it.`;
        const clears = 'Keep 0.1 m from it, on another way.';
        return { severity: 'stop', place, message, values: { near: near.join(' ') }, clears };
      },
    ),
};

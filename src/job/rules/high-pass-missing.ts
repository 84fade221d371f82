import type { Rule } from './rule.ts';
import { called } from './words.ts';

/** D-02. A passive crossover counts as a high-pass. */
export const highPassMissing: Rule = {
  id: 'D-02',
  code: 'high-pass-missing',
  why: 'A small cone without a high-pass moves beyond its stroke at any level of bass.',
  check: ({ plan, lanesOf }) =>
    plan.driver
      .filter(({ kind }) => kind === 'tweeter' || kind === 'mid')
      .flatMap((driver) =>
        lanesOf(driver.id).map(({ load, channels }) => {
          const place = `driver ${driver.id}`;
          if (load.passive !== undefined) return null;
          const edges = channels.map(({ highPass }) => highPass);
          if (edges.some((edge) => edge !== undefined && edge !== null)) return null;
          if (edges.length === 0 || edges.includes(undefined)) return { place, needs: 'the high-pass of its channel' };
          const message = `${called(driver)} has no high-pass: sub-bass can destroy it at any level.`;
          return {
            severity: 'stop',
            place,
            message,
            values: { load: load.id },
            clears: `Give ${channels[0].id} a high-pass.`,
          };
        }),
      ),
};

import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** How far outside the passive corner an active one is out of its way, as a ratio: an octave. */
const clearRatio = 2;

/** */
export const activeBeforePassive: Rule = {
  id: 'X-08',
  code: 'active-before-passive',
  why: 'Two crossovers one after the other add up in slope, level and phase.',
  check: ({ lanes }) =>
    lanes
      .filter(({ load }) => load.passive !== undefined)
      .map(({ load, channels, drivers }) => {
        const place = `load ${load.id}`;
        const passiveHz = load.passive?.fHz ?? 0;
        const edges = channels.flatMap(({ highPass, lowPass }) => [highPass, lowPass]);
        if (channels.length === 0 || edges.includes(undefined)) return { place, needs: 'the crossover of its channel' };
        const near = edges.find((edge) => {
          const ratio = (edge?.fHz ?? Number.POSITIVE_INFINITY) / passiveHz;
          return ratio > 1 / clearRatio && ratio < clearRatio;
        });
        if (near === undefined || near === null) return null;
        const who = drivers.length === 0 ? load.id : called(drivers[0]);
        return {
          severity: 'fix',
          place,
          message: `${who} has a passive crossover (${said(passiveHz)} Hz) behind an active one (${said(near.fHz)} Hz): phase and level add up. Bypass one, or set the active one far outside.`,
          values: { passiveHz, activeHz: near.fHz },
          clears: 'Take the passive crossover out, or move the active corner an octave away.',
        };
      }),
};

import { coilsIn } from '../../plan/networks.ts';
import { minimumOhm, nominalOhm } from './loads.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** L-01. The way out that one tap can take: all coils one after the other. */
export const loadBelowMinimum: Rule = {
  id: 'L-01',
  code: 'load-below-minimum',
  why: 'Below its lowest load an amplifier shuts down, overheats or fails.',
  check: ({ lanes }) =>
    lanes
      .filter(({ load }) => load.amplifier !== undefined)
      .map((lane) => {
        const { load } = lane;
        const place = `load ${load.id}`;
        const [ohm, leastOhm] = [nominalOhm(lane), minimumOhm(lane)];
        if (ohm === undefined) return { place, needs: 'the ohms of its coils' };
        if (leastOhm === undefined) return { place, needs: `the lowest load of ${load.amplifier}` };
        if (ohm >= leastOhm * (1 - 1e-9)) return null;
        const coils = load.network === undefined ? [] : [...new Set(coilsIn(load.network))];
        const series = { ...load, network: { s: coils } };
        const seriesOhm = nominalOhm({ ...lane, load: series }) ?? 0;
        const helps = coils.length > 1 && coils.length <= 32 && seriesOhm >= leastOhm;
        const way = helps
          ? `Use all coils in series: ${said(seriesOhm)} ohm`
          : 'Use drivers of more ohms, or another amplifier';
        return {
          severity: 'stop',
          place,
          message: `${load.amplifier}${load.bridgedWith === undefined ? '' : ' bridged'}: load ${said(ohm)} ohm is below the minimum ${said(leastOhm)} ohm. ${way}.`,
          values: { loadOhm: ohm, minimumOhm: leastOhm },
          clears: `${way}.`,
          ...(helps ? { changes: [{ part: 'load' as const, id: load.id, value: series }] } : {}),
        };
      }),
};

import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Assumed where the sheet is silent. */
const assumedA = { amplifier: 0.03, processor: 0.02 };

/** E-18. */
export const turnOnOverloaded: Rule = {
  id: 'E-18',
  code: 'turn-on-overloaded',
  why: 'A turn-on output that gives more than half its limit fails in heat, or drops out and pops.',
  check: ({ plan, part }) =>
    plan.source
      .filter(({ turnsOn = [], turnOnRelay }) => turnsOn.length > 0 && turnOnRelay !== true)
      .map((source) => {
        const place = `source ${source.id}`;
        const { turnOnLimitA: limitA, turnsOn = [] } = source;
        if (limitA === undefined) return { place, needs: 'how much current its turn-on output gives' };
        const drawnA = turnsOn.reduce((sum, id) => {
          const amplifier = part('amplifier', id);
          const processor = part('processor', id);
          if (amplifier !== undefined) return sum + (amplifier.turnOnA ?? assumedA.amplifier);
          return sum + (processor?.turnOnA ?? assumedA.processor);
        }, 0);
        if (drawnA <= limitA / 2) return null;
        const message = `The turn-on lead of ${called(source)} feeds ${turnsOn.length} devices at ${said(drawnA)} A; the source gives ${said(limitA)} A. Add a relay.`;
        const changes = [{ part: 'source' as const, id: source.id, value: { ...source, turnOnRelay: true } }];
        const values = { devices: turnsOn.length, drawnA, limitA };
        return { severity: 'fix', place, message, values, clears: 'Feed them through a relay with a diode.', changes };
      }),
};

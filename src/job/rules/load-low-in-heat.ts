import type { PartOf } from '../../plan/plan.ts';
import { minimumOhm, nominalOhm } from './loads.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

const NEAR = 1.1;
const HOT_C = 40;
const BUSY = 0.33;

/** Duty of what is planned, else the usual of the amplifier's class. */
function dutyOf(load: PartOf<'load'>, amplifier: PartOf<'amplifier'> | undefined): number | undefined {
  if (load.duty !== undefined) return load.duty;
  if (amplifier?.class === undefined) return undefined;
  return amplifier.class === 'D-sub' ? BUSY : 0.2;
}

/** L-02. Below the lowest load it is another finding. */
export const loadLowInHeat: Rule = {
  id: 'L-02',
  code: 'load-low-in-heat',
  why: 'At its lowest load an amplifier makes most heat, and in a hot boot it cannot lose it.',
  check: ({ lanes }) =>
    lanes
      .filter(({ load }) => load.amplifier !== undefined)
      .map((lane) => {
        const { load, amplifier } = lane;
        const place = `load ${load.id}`;
        const [ohm, leastOhm] = [nominalOhm(lane), minimumOhm(lane)];
        if (ohm === undefined) return { place, needs: 'the ohms of its coils' };
        if (leastOhm === undefined) return { place, needs: `the lowest load of ${load.amplifier}` };
        if (ohm >= NEAR * leastOhm * (1 - 1e-9) || ohm < leastOhm * (1 - 1e-9)) return null;
        const duty = dutyOf(load, amplifier);
        const ambientC = amplifier?.ambientC;
        if ((duty !== undefined && duty < BUSY) || (ambientC !== undefined && ambientC <= HOT_C)) return null;
        if (duty === undefined) return { place, needs: 'how dense its music is' };
        if (ambientC === undefined) return { place, needs: `how hot it gets around ${load.amplifier}` };
        return {
          severity: 'fix',
          place,
          message: `${load.amplifier} runs at its lowest load in heat (${said(ohm)} ohm, at least ${said(leastOhm)}, ${said(ambientC)} C): expect shutdowns.`,
          values: { loadOhm: ohm, minimumOhm: leastOhm, ambientC, duty },
          clears: 'Wire for a higher load, mount it where air moves, or give it a fan.',
        };
      }),
};

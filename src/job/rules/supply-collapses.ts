import { regulatedSupply } from '../../electrical/regulated-supply.ts';
import { arrivesAt, connectedW, efficiencyOf, runningV } from './currents.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** E-10. An amplifier that takes the same power whatever the voltage draws more as the voltage falls. */
export const supplyCollapses: Rule = {
  id: 'E-10',
  code: 'supply-collapses',
  why: 'Past this point there is no voltage at which it can run: it shuts down in the loudest moment.',
  check: (view) =>
    view.plan.amplifier.map((amplifier) => {
      const place = `amplifier ${amplifier.id}`;
      if (amplifier.regulated === false) return null;
      const arrives = arrivesAt(view, amplifier);
      if ('needs' in arrives) return { place, needs: arrives.needs };
      const [outputW, efficiency] = [connectedW(view, amplifier), efficiencyOf(view, amplifier)];
      if (outputW === undefined || efficiency === undefined) return { place, needs: 'its power and efficiency' };
      const inputW = outputW / efficiency;
      const { loopOhm } = arrives;
      if (regulatedSupply({ sourceV: runningV(view), inputW, loopOhm }).ok) return null;
      if (amplifier.regulated === undefined) return { place, needs: 'whether its supply is regulated' };
      const loopMohm = 1000 * loopOhm;
      return {
        severity: 'stop',
        place,
        message: `The supply cannot feed the ${said(inputW)} W of ${called(amplifier)} through ${said(loopMohm)} mOhm.`,
        values: { inputW, loopMohm, supplyV: runningV(view) },
        clears: 'Use thicker or shorter cable both ways, or less power.',
      };
    }),
};

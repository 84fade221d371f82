import { arrivesAt, runningV } from './currents.ts';
import type { Rule } from './rule.ts';
import { thickerCable } from './thicker-cable.ts';
import { called, said } from './words.ts';

/** E-08. The loss of clip level is that of a supply that the rails follow. */
export const supplyDrops: Rule = {
  id: 'E-08',
  code: 'supply-drops',
  why: 'Volts lost in the cable lower the level at which the amplifier clips, and dim lights.',
  check: (view, { dropNoteV, dropFixV, dropStopV }) =>
    view.plan.amplifier.map((amplifier) => {
      const place = `amplifier ${amplifier.id}`;
      const arrives = arrivesAt(view, amplifier);
      if ('needs' in arrives) return { place, needs: arrives.needs };
      const supplyV = runningV(view);
      const noteV = supplyV > 20 ? 2 * dropNoteV : dropNoteV;
      const scale = noteV / dropNoteV;
      const { dropV } = arrives;
      if (dropV <= noteV) return null;
      const severity = dropV > dropStopV * scale ? 'stop' : dropV > dropFixV * scale ? 'fix' : 'note';
      const dropPct = (100 * dropV) / supplyV;
      const clipDb = dropV < supplyV ? 20 * Math.log10(supplyV / (supplyV - dropV)) : 99;
      const thicker = thickerCable(arrives, noteV);
      const would =
        thicker === null ? '' : ` With ${thicker.id} of ${thicker.areaMm2} mm2 it would be ${said(thicker.dropV)} V.`;
      return {
        severity,
        place,
        message: `${said(dropV)} V is lost between battery and ${called(amplifier)} at full sine (${said(dropPct)} %, ${said(clipDb)} dB of clip level).${would}`,
        values: { dropV, dropPct, clipDb },
        clears: 'Use thicker or shorter cable, for the ground lead too.',
        ...(thicker === null ? {} : { changes: thicker.changes }),
      };
    }),
};

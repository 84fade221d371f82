import { bandsLevelDb } from '../../drivers/equaliser-level.ts';
import { ofEachMusicLimit } from './driver-limits.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** D-03. */
export const strokeBinds: Rule = {
  id: 'D-03',
  code: 'stroke-binds',
  why: 'A cone out of stroke distorts and in the end breaks, while a level display still looks right.',
  check: (view) =>
    ofEachMusicLimit(view, ({ place, lane, driver, found }) => {
      const { limit, excursionV, excursionFreqHz, ampVrms } = found;
      if (limit !== 'excursion') return null;
      const earlierDb = 20 * Math.log10(ampVrms / excursionV);
      const boostDb = bandsLevelDb(lane.channels.at(0)?.eq ?? [], excursionFreqHz);
      const boosted = boostDb >= 1;
      const boost = boosted ? ` Its boost there costs ${said(boostDb)} dB of that.` : '';
      return {
        severity: 'fix',
        place,
        message: `${called(driver)} runs out of stroke at ${said(excursionFreqHz)} Hz, ${said(earlierDb)} dB before the amplifier. Raise the high-pass or accept ${said(excursionV)} V.${boost}`,
        values: { excursionFreqHz, earlierDb, excursionV, ampVrms, ...(boosted ? { boostDb } : {}) },
        clears: `${boosted ? 'Take the boost back, raise' : 'Raise'} the high-pass, or set the gain for that voltage.`,
      };
    }),
};

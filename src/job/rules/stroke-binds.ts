import { ofEachMusicLimit } from './driver-limits.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** D-03. */
export const strokeBinds: Rule = {
  id: 'D-03',
  code: 'stroke-binds',
  why: 'A cone out of stroke distorts and in the end breaks, while a level display still looks right.',
  check: (view) =>
    ofEachMusicLimit(view, ({ place, driver, found }) => {
      const { limit, excursionV, excursionFreqHz, ampVrms } = found;
      if (limit !== 'excursion') return null;
      const earlierDb = 20 * Math.log10(ampVrms / excursionV);
      return {
        severity: 'fix',
        place,
        message: `${called(driver)} runs out of stroke at ${said(excursionFreqHz)} Hz, ${said(earlierDb)} dB before the amplifier. Raise the high-pass or accept ${said(excursionV)} V.`,
        values: { excursionFreqHz, earlierDb, excursionV, ampVrms },
        clears: 'Raise the high-pass, or set the gain for that voltage.',
      };
    }),
};

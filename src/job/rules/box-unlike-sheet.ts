import { sealedBox, sealedVolume } from '../../drivers/sealed-box.ts';
import type { PartOf } from '../../plan/plan.ts';
import { driverOf, driversInBox } from './driver-limits.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Volume against what the sheet asks for. */
const LEAST = 0.5;
const MOST = 2;
/** Without a peak: what a closed box is reckoned for where the sheet names no volume. */
const QTC = Math.SQRT1_2;

/** Net litres for one driver by the sheet, else of a closed box without a peak; or what is not known. */
function wanted(driver: PartOf<'driver'>, box: PartOf<'enclosure'>): { litres: number } | { needs: string } {
  if (box.sheetNetL !== undefined) return { litres: box.sheetNetL };
  const sheet = box.kind === 'sealed' ? driverOf(driver, 1) : undefined;
  const volume = sheet === undefined ? undefined : sealedVolume(sheet, QTC, box.fillGain ?? 1, 0);
  return volume?.ok ? { litres: 1000 * volume.value } : { needs: 'what volume its sheet asks for' };
}

/** D-11. Each of several drivers in a box has its share. A sub needs a box; other drivers may do without. */
export const boxUnlikeSheet: Rule = {
  id: 'D-11',
  code: 'box-unlike-sheet',
  why: 'A box far too small booms and costs depth; one far too large lets the cone run out of stroke.',
  check: (view) =>
    view.plan.driver.map((driver) => {
      const place = `driver ${driver.id}`;
      const box = view.part('enclosure', driver.enclosure);
      if (box === undefined) return driver.kind === 'sub' ? { place, needs: 'its box' } : null;
      if (box.kind === undefined) return { place, needs: 'the kind of its box' };
      const want = wanted(driver, box);
      if (box.kind === 'infinite-baffle') {
        // No box on purpose: wrong only where the sheet asks for one.
        if ('needs' in want) return null;
        return {
          severity: 'fix',
          place,
          message: `${called(driver)} needs about ${said(want.litres)} L; it has no box.`,
          values: { wantedL: want.litres, plannedL: 'none' },
          clears: `Plan a box of ${said(want.litres)} L.`,
        };
      }
      if ('needs' in want) return { place, needs: want.needs };
      if (box.netL === undefined) return { place, needs: 'the volume of its box' };
      const drivers = driversInBox(view, box.id);
      const plannedL = box.netL / drivers;
      if (plannedL >= LEAST * want.litres * (1 - 1e-9) && plannedL <= MOST * want.litres * (1 + 1e-9)) return null;
      const sheet = box.kind === 'sealed' ? driverOf(driver, 1) : undefined;
      const q = sheet === undefined ? undefined : sealedBox(sheet, plannedL / 1000, box.fillGain ?? 1, 0).qtc;
      const gives = q === undefined ? 'are far from it' : `give a Qtc of ${said(q)}`;
      const whole = want.litres * drivers;
      return {
        severity: 'fix',
        place,
        message: `${called(driver)} needs about ${said(want.litres)} L (${box.kind}); the planned ${said(plannedL)} L ${gives}.`,
        values: { wantedL: want.litres, plannedL, ...(q === undefined ? {} : { qtc: q }) },
        clears: `Make ${box.id} ${said(whole)} L net.`,
        changes: [{ part: 'enclosure', id: box.id, value: { ...box, netL: Number(whole.toPrecision(3)) } }],
      };
    }),
};

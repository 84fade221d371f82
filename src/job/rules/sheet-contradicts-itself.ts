import { checkDatasheet } from '../../drivers/datasheet.ts';
import type { Rule } from './rule.ts';
import { called, listed } from './words.ts';

/** D-07. Of a driver with several coils only what does not depend on how they are joined. */
export const sheetContradictsItself: Rule = {
  id: 'D-07',
  code: 'sheet-contradicts-itself',
  why: 'A forecast is no better than the sheet that it stands on.',
  check: ({ plan }) =>
    plan.driver.map((driver) => {
      const place = `driver ${driver.id}`;
      const { fsHz, qms, qes, qts, vasL, sdCm2, mmsG, cmsMmPerN, coils = 1 } = driver;
      const single = coils === 1 ? { reOhm: driver.reOhm, blTm: driver.blTm } : {};
      const spl1w1mDb = driver.sensitivityAt === '1W' ? driver.sensitivityDb : undefined;
      const check = checkDatasheet({ fsHz, qms, qes, qts, vasL, sdCm2, mmsG, cmsMmPerN, spl1w1mDb, ...single });
      if (check === null) return { place, needs: 'more of its sheet, such as both its Qs and their sum' };
      if (check.broken.length === 0) return null;
      const suspect = check.suspects.length === 0 ? 'more than one value' : listed(check.suspects);
      return {
        severity: 'note',
        place,
        message: `The sheet of ${called(driver)} disagrees with itself: ${listed(check.broken)}. Suspect: ${suspect}. Measure.`,
        values: { relations: check.broken.join(' '), suspects: check.suspects.join(' ') },
        clears: 'Measure the driver and write in what was read.',
      };
    }),
};

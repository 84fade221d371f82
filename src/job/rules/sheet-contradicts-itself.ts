import { checkDatasheet } from '../../drivers/datasheet.ts';
import { type SheetMend, sheetProposal } from '../../drivers/rebuilt-sheet.ts';
import type { Rule } from './rule.ts';
import { sheetOf, sheetWords, withSheet } from './sheet-of-driver.ts';
import { called, listed, said } from './words.ts';

const mendWords = ({ value, given, mended }: SheetMend) => {
  const [name, unit] = sheetWords[value];
  const of = unit === '' ? '' : ` ${unit}`;
  return `${name} ${said(mended)}${of} instead of ${said(given)}${of}`;
};

/** D-07. The proposal is what the other values make of the doubted one; a measurement outranks it. */
export const sheetContradictsItself: Rule = {
  id: 'D-07',
  code: 'sheet-contradicts-itself',
  why: 'A forecast is no better than the sheet that it stands on.',
  check: ({ plan }) =>
    plan.driver.map((driver) => {
      const place = `driver ${driver.id}`;
      const sheet = sheetOf(driver);
      const check = checkDatasheet(sheet);
      if (check === null) return { place, needs: 'more of its sheet, such as both its Qs and their sum' };
      if (check.broken.length === 0) return null;
      const names = check.suspects.map((value) => sheetWords[value][0]);
      const suspect = names.length === 0 ? 'more than one value' : listed(names);
      const proposal = sheetProposal(sheet);
      const value = proposal === null ? null : withSheet(driver, proposal.mends);
      const message = `The sheet of ${called(driver)} disagrees with itself: ${listed(check.broken)}. Suspect: ${suspect}. Measure.`;
      const values = { relations: check.broken.join(' '), suspects: check.suspects.join(' ') };
      if (proposal === null || value === null) {
        return { severity: 'note', place, message, values, clears: 'Measure the driver and write in what was read.' };
      }
      const mends = listed(proposal.mends.map(mendWords));
      const likely = {
        one: '',
        'one-of-several': 'most likely ',
        rebuilt: 'with what an impedance curve shows kept, ',
      };
      return {
        severity: 'note',
        place,
        message,
        values: { ...values, ...Object.fromEntries(proposal.mends.map(({ value, mended }) => [value, mended])) },
        clears: `Measure the driver by an impedance sweep and write in what was read; until then, ${likely[proposal.how]}${mends} makes it agree.`,
        changes: [{ part: 'driver', id: driver.id, value }],
      };
    }),
};

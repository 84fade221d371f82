import { reFromReading } from '../../drivers/loads/coil-reading.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

const roomC = 20;

/** D-09. A reading is of one coil of the driver alone, amplifier unplugged. */
export const coilOhmsDiffer: Rule = {
  id: 'D-09',
  code: 'coil-ohms-differ',
  why: 'The version with other coils was delivered, or the wrong sheet was used: every load in the plan is wrong with it.',
  check: ({ plan, readings }) =>
    plan.driver.map((driver) => {
      const place = `driver ${driver.id}`;
      const { coilOhm, orderedCoilOhm, reOhm } = driver;
      if (coilOhm !== undefined && orderedCoilOhm !== undefined && coilOhm !== orderedCoilOhm) {
        const message = `${called(driver)}: its sheet says ${said(coilOhm)} ohm, ordered were ${said(orderedCoilOhm)} ohm.`;
        return {
          severity: 'fix',
          place,
          message,
          values: { coilOhm, orderedCoilOhm },
          clears: 'Look at the label and mend the plan.',
        };
      }
      const reading = readings(driver.id, 'resistance').at(-1);
      if (reading?.value === undefined) return { place, needs: 'what its coil reads' };
      if (reOhm === undefined) return { place, needs: 'the direct-current resistance on its sheet' };
      const clears = 'Look at the label, read it again cold, or mend the plan.';
      if (reading.value === 'open') {
        const message = `${called(driver)} reads open; plan uses ${said(reOhm)} ohm.`;
        return { severity: 'fix', place, message, values: { reads: 'open', reOhm }, clears };
      }
      const given = {
        readingOhm: reading.value,
        leadOhm: reading.probesOhm ?? 0,
        coilC: reading.temperatureC ?? roomC,
      };
      const read = reFromReading(given);
      const cold = read.ok ? read.value.reAt20 : 0;
      if (read.ok && Math.abs(cold / reOhm - 1) <= 0.1 + 1e-9) return null;
      const message = `${called(driver)} reads ${said(cold)} ohm; plan uses ${said(reOhm)} ohm.`;
      return { severity: 'fix', place, message, values: { readsOhm: cold, reOhm }, clears };
    }),
};

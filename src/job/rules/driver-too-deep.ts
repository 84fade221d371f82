import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Air that a vent behind the magnet needs, beside a quarter of its diameter. */
const VENT_MM = 10;

/** B-02. In a panel of the car; a driver in a box has the depth of the box. */
export const driverTooDeep: Rule = {
  id: 'B-02',
  code: 'driver-too-deep',
  why: 'A window that meets a magnet breaks, or the door is taken apart again.',
  check: ({ plan, part }) =>
    plan.driver.map((driver) => {
      const box = part('enclosure', driver.enclosure);
      const found = part('place', driver.place);
      if (found === undefined || (box !== undefined && box.kind !== 'infinite-baffle')) return null;
      // A sub whose box is not planned yet sits in no panel.
      if (driver.kind === 'sub' && box === undefined) return null;
      const place = `driver ${driver.id}`;
      const { depthMm, ventDiameterMm } = driver;
      const { depthMm: freeMm, glassTravelMm = found.position === 'door' ? undefined : 0 } = found;
      if (depthMm === undefined) return { place, needs: 'its mounting depth' };
      if (freeMm === undefined) return { place, needs: `how deep ${found.id} is` };
      const ventMm = ventDiameterMm === undefined || ventDiameterMm === 0 ? 0 : ventDiameterMm / 4 + VENT_MM;
      const [neededMm, leftMm] = [depthMm + ventMm, freeMm - (glassTravelMm ?? 0)];
      if (neededMm <= leftMm) {
        if (glassTravelMm === undefined) return { place, needs: `how much of ${found.id} the glass takes when down` };
        return ventDiameterMm === undefined ? { place, needs: 'the diameter of its vent, 0 for none' } : null;
      }
      const glass = glassTravelMm === undefined || glassTravelMm === 0 ? '' : ' with the window down';
      return {
        severity: 'stop',
        place,
        message: `${called(driver)} needs ${said(neededMm)} mm; ${called(found)} has ${said(leftMm)} mm${glass}.`,
        values: { neededMm, leftMm, glassTravelMm: glassTravelMm ?? 'not known' },
        clears: 'Choose a flatter driver, another place, or a ring that moves it out.',
      };
    }),
};

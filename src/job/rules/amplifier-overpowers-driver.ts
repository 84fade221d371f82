import { targetVolts } from '../../electrical/gains/target-volts.ts';
import { laneDrive } from './loads.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** D-04. Power is shared evenly among like coils; an overlap above 5 dB has its gain set lower anyway. */
export const amplifierOverpowersDriver: Rule = {
  id: 'D-04',
  code: 'amplifier-overpowers-driver',
  why: 'A knob turned up puts the amplifier, not the plan, in charge of the coil.',
  check: ({ lanes }, { powerOverThermal }) =>
    lanes.flatMap((lane) => {
      if (lane.amplifier?.limiter === true || lane.channels.some(({ overlapDb = 0 }) => overlapDb > 5)) return [];
      return lane.drivers.map((driver) => {
        const place = `driver ${driver.id}`;
        const { thermalW } = driver;
        if (lane.load.amplifier === undefined) return null;
        if (thermalW === undefined) return { place, needs: 'the power that it stands' };
        const drive = laneDrive(lane);
        if (drive === undefined) return { place, needs: `the power of ${lane.load.amplifier} into its load` };
        const eachW = drive.watt / lane.drivers.length;
        if (eachW <= powerOverThermal * thermalW) return null;
        const coilsOhm = drive.ohm;
        const limitV = targetVolts({ watt: thermalW, ohm: coilsOhm }).rms;
        const message = `${lane.load.amplifier} can give ${said(eachW)} W to ${called(driver)}, a ${said(thermalW)} W driver. Set its target to ${said(limitV)} V and a limiter.`;
        return {
          severity: 'fix',
          place,
          message,
          values: { powerW: eachW, thermalW, limitV },
          clears: 'Set a limiter, or use less amplifier.',
        };
      });
    }),
};

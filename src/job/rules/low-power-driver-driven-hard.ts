import { laneDrive } from './loads.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** D-06. Made for low power by its tag, or by what it stands and how far it moves. */
export const lowPowerDriverDrivenHard: Rule = {
  id: 'D-06',
  code: 'low-power-driver-driven-hard',
  why: 'A driver made for a factory amplifier runs out of stroke and heat at a fraction of this power.',
  check: ({ lanes }, { lowPowerThermalW, lowPowerXmaxMm, lowPowerAmplifierW }) =>
    lanes.flatMap((lane) =>
      lane.drivers.map((driver) => {
        const place = `driver ${driver.id}`;
        const { intendedUse, thermalW, xmaxMm, kind } = driver;
        if (kind === 'tweeter' && intendedUse !== 'low-power') return null;
        const small =
          thermalW === undefined || xmaxMm === undefined
            ? undefined
            : thermalW < lowPowerThermalW && xmaxMm < lowPowerXmaxMm;
        if (intendedUse === 'general' || intendedUse === 'high-power') return null;
        if (intendedUse === undefined && small === undefined) return { place, needs: 'what power it is made for' };
        if (intendedUse === undefined && !small) return null;
        const drive = laneDrive(lane);
        if (drive === undefined) return { place, needs: 'the power of its amplifier into its load' };
        const powerW = drive.watt / lane.drivers.length;
        if (powerW <= lowPowerAmplifierW) return null;
        const keepV = drive.volt * Math.sqrt(Math.min(1, (thermalW ?? lowPowerThermalW) / powerW));
        const message = `${called(driver)} is made for low power; it is on ${said(powerW)} W. Keep to ${said(keepV)} V and give it a high-pass.`;
        return {
          severity: 'fix',
          place,
          message,
          values: { powerW, keepV },
          clears: 'Choose a driver made for this power, or keep to that voltage.',
        };
      }),
    ),
};

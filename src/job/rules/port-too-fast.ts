import { logSpaced } from '../../drivers/limits.ts';
import { driverMotion } from '../../drivers/motion.ts';
import { crossoverLevelDb } from '../../signals/filters/crossover-level.ts';
import { driversInBox, forecastOf } from './driver-limits.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** Peak speed of air: 25 m/s is usual, above 30 it is heard and compresses. */
const USUAL_MPS = 25;
const FAST_MPS = 30;
/** Where ports work. */
const FROM_HZ = 10;
const TO_HZ = 200;
/** 96 an octave. */
const POINTS = 415;

/** D-13. At the voltage that is set as target, else at what amplifier and driver both stand; the crossover counts. */
export const portTooFast: Rule = {
  id: 'D-13',
  code: 'port-too-fast',
  why: 'Air that is too fast is heard as wind, and the port stops working when it is needed.',
  check: (view) =>
    view.plan.driver.flatMap((driver) =>
      view.lanesOf(driver.id).map((lane) => {
        const enclosure = view.part('enclosure', driver.enclosure);
        if (enclosure?.kind !== 'vented' && enclosure?.kind !== 'bandpass4') return null;
        const place = `driver ${driver.id}`;
        const { portAreaCm2 } = enclosure;
        if (portAreaCm2 === undefined) return { place, needs: 'the area of its port' };
        const forecast = forecastOf(view, lane, driver);
        if ('needs' in forecast) return { place, needs: forecast.needs };
        const { driven, ampVrms } = forecast;
        const { targetV, thermalW } = driver;
        if (targetV === undefined && thermalW === undefined) return { place, needs: 'the power that it stands' };
        const heatV = Math.sqrt((thermalW ?? 0) * driven.driver.reOhm);
        const volt = targetV ?? Math.min(ampVrms, heatV);
        const motion = driverMotion(driven.driver, driven.box, driven.sourceOhm);
        let [flowM3PerS, atHz] = [0, FROM_HZ];
        for (const fHz of logSpaced(FROM_HZ, TO_HZ, POINTS)) {
          const db = driven.filters.reduce((sum, filter) => sum + crossoverLevelDb(filter, fHz), 0);
          const flow = Math.SQRT2 * motion(fHz).portFlowM3PerS * volt * 10 ** (db / 20);
          if (flow > flowM3PerS) [flowM3PerS, atHz] = [flow, fHz];
        }
        const drivers = driversInBox(view, enclosure.id);
        const speedMps = flowM3PerS / (portAreaCm2 / 1e4 / drivers);
        if (speedMps <= USUAL_MPS * (1 + 1e-9)) return null;
        const neededCm2 = Math.ceil((1e4 * drivers * flowM3PerS) / USUAL_MPS);
        return {
          severity: speedMps > FAST_MPS ? 'fix' : 'note',
          place,
          message: `Port air reaches ${said(speedMps)} m/s at ${said(atHz)} Hz: use ${neededCm2} cm2, with a longer port for the same tuning.`,
          values: { speedMps, fHz: atHz, voltRms: volt, portAreaCm2, neededCm2 },
          clears: `Make the ports of ${enclosure.id} ${neededCm2} cm2 together.`,
          changes: [{ part: 'enclosure', id: enclosure.id, value: { ...enclosure, portAreaCm2: neededCm2 } }],
        };
      }),
    ),
};

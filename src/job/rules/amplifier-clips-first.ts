import { bassCeilings, isBass, levelAsked } from './bass-ceiling.ts';
import { ofEachMusicLimit } from './driver-limits.ts';
import { laneDrive } from './loads.ts';
import type { PlanView } from './plan-view.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Below this part of what the driver stands the amplifier is small for it. */
const SMALL = 0.5;

/** A crossover that takes more than this at a frequency leaves it to others. */
const CROSSED_DB = -6.1;

/** Whether the level asked for stays out of reach at a frequency that is this driver's, by its amplifier's fault. */
function shortOfAsked(view: PlanView, driver: string): boolean | { needs: string } {
  const { points, needs } = bassCeilings(view);
  const asked = levelAsked(view);
  if (asked === undefined) return { needs: 'the level that is asked for' };
  const short = points.some(
    (one) => one.driver === driver && one.limit === 'amplifier' && one.crossoverDb > CROSSED_DB && one.levelDb < asked,
  );
  return short && needs !== undefined ? { needs } : points.length === 0 && needs !== undefined ? { needs } : short;
}

/** D-05. That an amplifier clips first is sound as long as it is not small and reaches what is asked for. */
export const amplifierClipsFirst: Rule = {
  id: 'D-05',
  code: 'amplifier-clips-first',
  why: 'An amplifier that is turned up past its end sends twice its power, most of it distortion, into the coil.',
  check: (view) =>
    ofEachMusicLimit(view, ({ place, lane, driver, found }) => {
      const { limit, headroomToNextDb, amplifierV } = found;
      const powerW = (laneDrive(lane)?.watt ?? 0) / lane.drivers.length;
      const thermalW = driver.thermalW ?? 0;
      if (limit !== 'amplifier') return null;
      const small = powerW < SMALL * thermalW;
      const short = small || (isBass(driver) && shortOfAsked(view, driver.id));
      if (short === false) return null;
      if (short !== true) return { place, needs: short.needs };
      const amplifier = lane.amplifier === undefined ? `${lane.load.amplifier}` : called(lane.amplifier);
      return {
        severity: 'note',
        place,
        message: `${amplifier} clips ${said(headroomToNextDb)} dB before the ceiling of ${called(driver)} (${said(powerW)} W for a ${said(thermalW)} W driver): distortion is the limit. More power or a more sensitive driver.`,
        values: { headroomDb: headroomToNextDb, amplifierV, powerW, thermalW },
        clears: 'Use more power or a more sensitive driver, or ask for less level.',
      };
    }),
};

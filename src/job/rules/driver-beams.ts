import { soundMPerS } from '../../drivers/air.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { Lane } from './plan-view.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

const HIGHEST_HZ = 20_000;

/** Where it stops being used; undefined where the crossover is not planned. */
function usedToHz({ load, channels }: Lane): number | undefined {
  if (load.passive !== undefined) return load.passive.fHz;
  const lowPass = channels.at(0)?.lowPass;
  return lowPass === null ? HIGHEST_HZ : lowPass?.fHz;
}

/** An octave above c / (pi d), or its breakup where that is lower; undefined where neither is known. */
export function goodToHz({ coneDiameterMm, sdCm2, breakupHz }: PartOf<'driver'>): number | undefined {
  const diameterM =
    coneDiameterMm !== undefined && coneDiameterMm > 0
      ? coneDiameterMm / 1000
      : sdCm2 === undefined
        ? undefined
        : 2 * Math.sqrt(sdCm2 / 1e4 / Math.PI);
  if (diameterM === undefined) return breakupHz;
  return Math.min((2 * soundMPerS) / (Math.PI * diameterM), breakupHz ?? HIGHEST_HZ);
}

/** A tweeter has nothing above it to cross to. Source: ka = 2 at the rim of a piston, an octave above ka = 1. */
export const driverBeams: Rule = {
  id: 'X-04',
  code: 'driver-beams',
  why: 'Where a cone beams or breaks up, what the microphone hears is not what the next seat hears.',
  check: ({ plan, lanesOf }) =>
    plan.driver
      .filter(({ kind }) => kind !== 'tweeter')
      .flatMap((driver) =>
        lanesOf(driver.id).map((lane) => {
          const place = `driver ${driver.id}`;
          const [toHz, goodHz] = [usedToHz(lane), goodToHz(driver)];
          if (driver.kind === undefined) return { place, needs: 'what kind of driver it is' };
          if (toHz === undefined) return { place, needs: 'the low-pass of its channel' };
          if (goodHz === undefined) return { place, needs: 'the diameter of its cone' };
          if (toHz <= goodHz * (1 + 1e-9)) return null;
          const channel = lane.channels.at(0);
          const fHz = Math.floor(goodHz);
          const lowPass = { family: 'linkwitz-riley' as const, order: 4, ...channel?.lowPass, fHz };
          return {
            severity: 'note',
            place,
            message: `${called(driver)} beams or breaks up above ${fHz} Hz and is used to ${said(toHz)} Hz. Cross at or below.`,
            values: { beamsAboveHz: goodHz, usedToHz: toHz },
            clears: `Cross it at ${fHz} Hz or below.`,
            ...(channel === undefined || lane.load.passive !== undefined
              ? {}
              : { changes: [{ part: 'channel' as const, id: channel.id, value: { ...channel, lowPass } }] }),
          };
        }),
      ),
};

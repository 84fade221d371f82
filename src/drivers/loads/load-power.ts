// What an amplifier channel, or two bridged, gives into a load.
import { calculation } from '../../base/calculation.ts';
import { type Input, named, number, optional } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';

/** Rated watts by load in ohm; one or more, all above 0. */
export type LoadRatings = ReadonlyMap<number, number>;

export interface LoadPower {
  watt: number;
  /** RMS. */
  volt: number;
  /** RMS. */
  ampere: number;
  basis: 'listed' | 'between' | 'voltage-limited' | 'current-limited';
}

/** Loads that differ by less are the same. */
const slack = 1e-9;

/** The lowest load that is listed, ohm. */
export const lowestLoad = (ratings: LoadRatings) => [...ratings.keys()].reduce((a, b) => Math.min(a, b));

function tooLow(loadOhm: number, minOhm: number, where: string): Result<never> {
  const message = `${loadOhm} ohm is below the ${minOhm} ohm that the amplifier takes here: it may shut down, overheat or fail.`;
  return refused('out-of-range', where, message, 'Wire the coils to a higher load.');
}

/**
 * Power into a load: as listed; between listed loads on a straight line of log W against log R; above the highest limited by
 * voltage; below the lowest limited by current.
 *
 * @param loadOhm nominal, above 0
 * @param minOhm  lowest load allowed, above 0
 * @returns refused as `out-of-range` below `minOhm`
 * Source: an amplifier's output is limited by its rails above its rated loads and by its current below.
 * @example loadPower(new Map([[4, 100], [2, 180]]), 8).value.watt // 50
 */
export function loadPower(
  ratings: LoadRatings,
  loadOhm: number,
  minOhm: number = lowestLoad(ratings),
): Result<LoadPower> {
  if (loadOhm < minOhm * (1 - slack)) return tooLow(loadOhm, minOhm, 'loadOhm');
  const { watt, basis } = wattsInto(
    [...ratings].sort(([a], [b]) => a - b),
    loadOhm,
  );
  return success({ watt, volt: Math.sqrt(watt * loadOhm), ampere: Math.sqrt(watt / loadOhm), basis });
}

function wattsInto(listed: [number, number][], loadOhm: number): Pick<LoadPower, 'watt' | 'basis'> {
  const same = listed.find(([ohm]) => Math.abs(ohm / loadOhm - 1) <= slack);
  if (same !== undefined) return { watt: same[1], basis: 'listed' };
  const above = listed.findIndex(([ohm]) => ohm > loadOhm);
  if (above === 0) return { watt: (listed[0][1] * loadOhm) / listed[0][0], basis: 'current-limited' };
  if (above < 0) {
    const [ohm, watt] = listed[listed.length - 1];
    return { watt: (watt * ohm) / loadOhm, basis: 'voltage-limited' };
  }
  const [[lowOhm, lowW], [highOhm, highW]] = [listed[above - 1], listed[above]];
  const share = Math.log(loadOhm / lowOhm) / Math.log(highOhm / lowOhm);
  return { watt: lowW * (highW / lowW) ** share, basis: 'between' };
}

/**
 * Two channels bridged: each sees half the load, and both together give twice what one gives into that half.
 *
 * @param channelRatings of one channel; @param loadOhm above 0
 * @param minChannelOhm  lowest load of one channel, above 0
 * @returns refused as `out-of-range` where half the load is below it
 * Source: two equal voltages in opposite phase.
 */
export function bridgedView(
  channelRatings: LoadRatings,
  loadOhm: number,
  minChannelOhm: number = lowestLoad(channelRatings),
): Result<{ eachChannelOhm: number; bridgedW: number; bridgedV: number }> {
  const eachChannelOhm = loadOhm / 2;
  if (eachChannelOhm < minChannelOhm * (1 - slack)) return tooLow(loadOhm, 2 * minChannelOhm, 'loadOhm');
  const each = loadPower(channelRatings, eachChannelOhm, minChannelOhm);
  if (!each.ok) return each;
  const bridgedW = 2 * each.value.watt;
  return success({ eachChannelOhm, bridgedW, bridgedV: Math.sqrt(bridgedW * loadOhm) });
}

const watts = named(number('W', { above: 0 }));

/** Ratings as `{"4": 100, "2": 180}`: the names are loads in ohm. */
const ratingsInput: Input<LoadRatings> = {
  form: '{"ohm": number above 0, W, ...}',
  read(value, where, say) {
    const mend = 'Write ratings as {"4": 100, "2": 180}: watts by load in ohm.';
    const ratings = new Map<number, number>();
    for (const [name, watt] of watts.read(value, where, say)) {
      const ohm = name.trim() === '' ? Number.NaN : Number(name);
      const at = `${where}.${name.slice(0, 40)}`;
      if (!Number.isFinite(ohm))
        say({ code: 'not-a-number', message: `"${name.slice(0, 40)}" is no load in ohm.`, where: at, mend });
      else if (ohm <= 0)
        say({ code: 'out-of-range', message: `A load must be above 0 ohm, got ${name}.`, where: at, mend });
      ratings.set(ohm, watt);
    }
    return ratings;
  },
};

const caution =
  'Never wire below the lowest load; a bridged channel sees half. Never connect a speaker minus to ground.';

export const loadPowerCalculation = calculation({
  name: 'loadPower',
  about: 'power, volts and amps that a channel gives into a load',
  caution,
  inputs: {
    ratings: ratingsInput,
    loadOhm: number('ohm', { above: 0 }),
    minOhm: optional(number('ohm', { above: 0 }), 'the lowest listed load'),
  },
  answer: ({ ratings, loadOhm, minOhm }) => loadPower(ratings, loadOhm, minOhm),
});

export const bridgedViewCalculation = calculation({
  name: 'bridgedView',
  about: 'what two bridged channels see and give',
  caution,
  inputs: {
    channelRatings: ratingsInput,
    loadOhm: number('ohm', { above: 0 }),
    minChannelOhm: optional(number('ohm', { above: 0 }), 'the lowest listed load'),
  },
  answer: ({ channelRatings, loadOhm, minChannelOhm }) => bridgedView(channelRatings, loadOhm, minChannelOhm),
});

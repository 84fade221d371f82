import { amplifierDraws, wayFromBattery } from './currents.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** A fuse at this multiple of its rating may hold for minutes or open within seconds. */
const HOLDS = 1.35;

/** E-07. The smallest fuse on the way to an amplifier against its draw at full sine. Source: ISO 8820 time-current limits. */
export const fullToneOpensFuse: Rule = {
  id: 'E-07',
  code: 'full-tone-opens-fuse',
  why: 'Fuses are chosen for music; a tone at full level takes several times as much.',
  check: (view) =>
    view.plan.amplifier.map((amplifier) => {
      const place = `amplifier ${amplifier.id}`;
      if (amplifier.fullTonePlanned === false) return null;
      const way = wayFromBattery(view, amplifier.id);
      if (way.length === 0) return { place, needs: 'its way from the battery' };
      const fuses = way.flatMap(({ id }) => view.fusesOf(id)).filter(({ fitted }) => fitted !== false);
      const ratings = fuses.flatMap(({ ratedA }) => ratedA ?? []);
      if (ratings.length < fuses.length || ratings.length === 0) return { place, needs: 'the fuses on its way' };
      const sineA = amplifierDraws(view, amplifier)?.sineA;
      if (sineA === undefined) return { place, needs: 'its power into what is connected' };
      const ratedA = Math.min(...ratings);
      if (sineA <= HOLDS * ratedA) return null;
      if (amplifier.fullTonePlanned === undefined) return { place, needs: 'whether a tone at full level is planned' };
      return {
        severity: 'note',
        place,
        message: `Full tone on ${called(amplifier)} draws ${said(sineA)} A; the ${said(ratedA)} A fuse may open. Unplug drivers for gain work.`,
        values: { sineA, ratedA },
        clears: 'Set gains with a tone at -20 dBFS and the drivers unplugged.',
        changes: [{ part: 'amplifier', id: amplifier.id, value: { ...amplifier, fullTonePlanned: false } }],
      };
    }),
};

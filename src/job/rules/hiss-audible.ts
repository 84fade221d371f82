import { hissAtSeat } from './hiss-at-seat.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** S-07. At the nearest seat, gains set so that all of the chain clips together. */
export const hissAudible: Rule = {
  id: 'S-07',
  code: 'hiss-audible',
  why: 'Hiss is heard in every pause and before the engine starts, and no tuning takes it away.',
  check: (view) =>
    view.lanes.flatMap((lane) =>
      lane.channels
        .filter(({ output }) => output !== undefined)
        .flatMap((channel) =>
          lane.drivers.map((driver) => {
            const place = `driver ${driver.id}`;
            const found = hissAtSeat(view, lane, channel, driver);
            if (found === null) return null;
            if ('needs' in found) return { place, needs: found.needs };
            const { splDb, verdict, noiseUv, ampGainDb: amplifierGainDb, distanceM } = found;
            if (verdict === 'ok') return null;
            return {
              severity: verdict,
              place,
              message: `Hiss at the ear ${said(splDb)} dB from ${called(driver)} at ${said(distanceM)} m.`,
              values: { splDb, noiseUv, amplifierGainDb, distanceM },
              clears: 'Turn the amplifier down and the processor up, or use quieter or less sensitive parts.',
            };
          }),
        ),
    ),
};

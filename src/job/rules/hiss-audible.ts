import { hiss } from '../../electrical/gains/hiss.ts';
import { chainGains } from './chain-gains.ts';
import type { PlanView } from './plan-view.ts';
import type { Rule } from './rule.ts';
import { level283Db } from './sensitivity.ts';
import { called, said } from './words.ts';

/** How near the nearest head is to a place, m; undefined where nobody measured it. */
function nearestM({ plan }: PlanView, place: string | undefined): number | undefined {
  const distances = plan.seat.flatMap(({ distances = [] }) =>
    distances.filter((known) => known.place === place && known.distanceM > 0).map(({ distanceM }) => distanceM),
  );
  return distances.length === 0 ? undefined : Math.min(...distances);
}

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
            const gains = chainGains(view, lane, channel, 'driver');
            if (gains === null) return null;
            if ('needs' in gains) return { place, needs: gains.needs };
            const { noiseUv: procNoiseUv } = gains.processor;
            const { inputNoiseUv: ampInputNoiseUv } = gains.amplifier;
            if (procNoiseUv === undefined) return { place, needs: `the noise of ${gains.processor.id}` };
            if (ampInputNoiseUv === undefined) return { place, needs: `the noise of ${gains.amplifier.id}` };
            if (procNoiseUv === 0 && ampInputNoiseUv === 0) return null;
            const level = level283Db(lane, driver);
            if ('needs' in level) return { place, needs: level.needs };
            const distanceM = nearestM(view, driver.place);
            if (distanceM === undefined) return { place, needs: 'how far it is from the nearest seat' };
            const { splDb, verdict, noiseUvAtDriver } = hiss({
              procNoiseUv,
              ampInputNoiseUv,
              ampGainDb: gains.set.ampGainDb,
              spl283Db: level.levelDb,
              distanceM,
            });
            if (verdict === 'ok') return null;
            return {
              severity: verdict,
              place,
              message: `Hiss at the ear ${said(splDb)} dB from ${called(driver)} at ${said(distanceM)} m.`,
              values: { splDb, noiseUv: noiseUvAtDriver, amplifierGainDb: gains.set.ampGainDb, distanceM },
              clears: 'Turn the amplifier down and the processor up, or use quieter or less sensitive parts.',
            };
          }),
        ),
    ),
};

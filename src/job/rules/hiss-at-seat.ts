// The hiss of one driver at the nearest seat, gains set so that all of its chain clips together.
import { type HissVerdict, hiss } from '../../electrical/gains/hiss.ts';
import type { PartOf } from '../../plan/plan.ts';
import { chainGains } from './chain-gains.ts';
import type { Lane, PlanView } from './plan-view.ts';
import { level283Db } from './sensitivity.ts';

/** How near the nearest head is to a place, m; undefined where nobody measured it. */
function nearestM({ plan }: PlanView, place: string | undefined): number | undefined {
  const distances = plan.seat.flatMap(({ distances = [] }) =>
    distances.filter((known) => known.place === place && known.distanceM > 0).map(({ distanceM }) => distanceM),
  );
  return distances.length === 0 ? undefined : Math.min(...distances);
}

export interface HissAtSeat {
  /** At the ear. */
  splDb: number;
  verdict: HissVerdict;
  noiseUv: number;
  ampGainDb: number;
  distanceM: number;
}

/** What is not known of it is named; null where the channel is not wired that far, or nothing in it makes noise. */
export function hissAtSeat(
  view: PlanView,
  lane: Lane,
  channel: PartOf<'channel'>,
  driver: PartOf<'driver'>,
): HissAtSeat | { needs: string } | null {
  const gains = chainGains(view, lane, channel, 'driver');
  if (gains === null) return null;
  if ('needs' in gains) return gains;
  const { noiseUv: procNoiseUv } = gains.processor;
  const { inputNoiseUv: ampInputNoiseUv } = gains.amplifier;
  if (procNoiseUv === undefined) return { needs: `the noise of ${gains.processor.id}` };
  if (ampInputNoiseUv === undefined) return { needs: `the noise of ${gains.amplifier.id}` };
  if (procNoiseUv === 0 && ampInputNoiseUv === 0) return null;
  const level = level283Db(lane, driver);
  if ('needs' in level) return level;
  const distanceM = nearestM(view, driver.place);
  if (distanceM === undefined) return { needs: 'how far it is from the nearest seat' };
  const { ampGainDb } = gains.set;
  const { splDb, verdict, noiseUvAtDriver } = hiss({
    procNoiseUv,
    ampInputNoiseUv,
    ampGainDb,
    spl283Db: level.levelDb,
    distanceM,
  });
  return { splDb, verdict, noiseUv: noiseUvAtDriver, ampGainDb, distanceM };
}

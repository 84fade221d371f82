import { minHighPass, strokeAtClip } from '../../drivers/limits.ts';
import { forecastOf } from './driver-limits.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

const LOWEST_HZ = 5;
const HIGHEST_HZ = 20_000;
/** 96 an octave. */
const POINTS = 1150;
/** Room for what a corner can be dialled in to. */
const SLACK = 0.995;

/** Multiple of the resonance under which a small driver is not crossed, by the order of the high-pass: trade practice. */
const resonances = (order: number): number => (order >= 4 ? 1.5 : order >= 2 ? 2 : 2.5);

/** D-01. By stroke at the amplifier's clip voltage; for tweeters and mids by resonance too, and by what the maker says. */
export const highPassTooLow: Rule = {
  id: 'D-01',
  code: 'high-pass-too-low',
  why: 'The customer turns it up: what counts is the voltage at which the amplifier clips, not the level of today.',
  check: (view) =>
    view.plan.driver
      .filter(({ kind }) => kind !== undefined && kind !== 'sub')
      .flatMap((driver) =>
        view.lanesOf(driver.id).map((lane) => {
          const place = `driver ${driver.id}`;
          if (lane.load.passive !== undefined) return null;
          const forecast = forecastOf(view, lane, driver);
          if ('needs' in forecast) return { place, needs: forecast.needs };
          const { driven, ampVrms } = forecast;
          const edge = driven.filters.find(({ type }) => type === 'hp');
          const { family, order } = edge ?? { family: 'linkwitz-riley' as const, order: 4 };
          const small = driver.kind === 'tweeter' || driver.kind === 'mid';
          // A small driver without any high-pass is told by itself.
          if (small && edge === undefined) return null;
          const stroke = strokeAtClip(driven, ampVrms, LOWEST_HZ, HIGHEST_HZ, POINTS);
          const least = Math.max(small ? resonances(order) * driven.driver.fsHz : 0, driver.minimumHighPassHz ?? 0);
          const tooFar = SLACK * stroke.xPeakM > driven.xmaxM;
          if (!tooFar && (edge?.hz ?? 0) >= SLACK * least) return null;
          const floor = tooFar ? minHighPass(driven, ampVrms, { family, order }, POINTS) : null;
          const floorHz = floor === null ? 0 : floor.ok ? (floor.value.highPassHz ?? 0) : Number.POSITIVE_INFINITY;
          const safeHz = Math.ceil(Math.max(floorHz, least));
          const moves = `${called(driver)} with ${said(ampVrms)} V may move ${said(1000 * stroke.xPeakM)} mm at ${said(stroke.worstFreqHz)} Hz`;
          const isSet = edge === undefined ? 'There is none.' : `Set to ${said(edge.hz)} Hz.`;
          const values = { voltRms: ampVrms, excursionFreqHz: stroke.worstFreqHz, highPassHz: edge?.hz ?? 'none' };
          if (!Number.isFinite(safeHz)) {
            const message = `${moves}; no high-pass keeps it within its stroke. ${isSet}`;
            return {
              severity: 'stop',
              place,
              message,
              values,
              clears: 'Use a smaller amplifier, a limiter or another driver.',
            };
          }
          const channel = lane.channels[0];
          return {
            severity: 'stop',
            place,
            message: `${moves}; safe high-pass is ${safeHz} Hz (${6 * order} dB/octave). ${isSet}`,
            values: { ...values, safeHighPassHz: safeHz },
            clears: `Set the high-pass of ${channel.id} to ${safeHz} Hz.`,
            changes: [
              { part: 'channel', id: channel.id, value: { ...channel, highPass: { family, order, fHz: safeHz } } },
            ],
          };
        }),
      ),
};

import { chainGains } from './chain-gains.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** S-06. What the amplifier cannot be turned down by, the processor has to be. */
export const levelThrownAway: Rule = {
  id: 'S-06',
  code: 'level-thrown-away',
  why: 'Level taken away in the processor leaves its noise and the amplifier as loud as they were.',
  check: (view, { trimMinDb }) =>
    view.lanes.flatMap((lane) =>
      lane.channels
        .filter(({ output }) => output !== undefined)
        .map((channel) => {
          const place = `channel ${channel.id}`;
          const gains = chainGains(view, lane, channel, 'driver');
          if (gains === null) return null;
          if ('needs' in gains) return { place, needs: gains.needs };
          const { procTrimDb, ampSensV, targetV } = gains.set;
          if (procTrimDb >= trimMinDb - 1e-9) return null;
          return {
            severity: 'note',
            place,
            message: `${called(channel)} throws ${said(-procTrimDb)} dB away digitally: more hiss, fewer bits. Use an input of ${gains.amplifier.id} with less gain.`,
            values: { trimDb: procTrimDb, amplifierSensitivityV: ampSensV, targetV },
            clears: 'Use an amplifier input that takes more volts, or a smaller amplifier.',
          };
        }),
    ),
};

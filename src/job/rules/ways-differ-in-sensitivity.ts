import { crossings } from './neighbours.ts';
import type { Rule } from './rule.ts';
import { level283Db } from './sensitivity.ts';
import { called, said } from './words.ts';

/** D-08. Per volt, as the drivers are wired. */
export const waysDifferInSensitivity: Rule = {
  id: 'D-08',
  code: 'ways-differ-in-sensitivity',
  why: 'The louder driver is turned down a lot, while the hiss of its amplifier stays as it is.',
  check: (view, { sensitivityDifferenceDb }) =>
    crossings(view).map((ways) => {
      const place = `channels ${ways[0].channel.id} and ${ways[1].channel.id}`;
      const levels: number[] = [];
      for (const { lane, driver } of ways) {
        const level = level283Db(lane, driver);
        if ('needs' in level) return { place, needs: `of ${driver.id} ${level.needs}` };
        levels.push(level.levelDb);
      }
      const louderDb = Math.abs(levels[1] - levels[0]);
      if (louderDb <= sensitivityDifferenceDb + 1e-9) return null;
      const [louder, softer] = levels[0] > levels[1] ? ways : [ways[1], ways[0]];
      return {
        severity: 'note',
        place,
        message: `${called(louder.driver)} is ${said(louderDb)} dB louder per volt than ${called(softer.driver)}: expect attenuation, more hiss on ${louder.driver.id}.`,
        values: { louderDb, lowerWayDb: levels[0], upperWayDb: levels[1] },
        clears: `Give ${louder.driver.id} a smaller amplifier with less gain, or choose drivers of nearer sensitivity.`,
      };
    }),
};

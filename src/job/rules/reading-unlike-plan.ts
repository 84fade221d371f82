import { expectedReading, laneOfLead, mainReading, readWiring } from './lead-readings.ts';
import type { Rule } from './rule.ts';
import { listed, said } from './words.ts';

const ohmWords = (ohm: number | 'open') => (ohm === 'open' ? 'open' : said(ohm));

/** L-09. Accepted only where the reading fits what is planned and nothing else that differs in ohms. */
export const readingUnlikePlan: Rule = {
  id: 'L-09',
  code: 'reading-unlike-plan',
  why: 'A reading that does not fit is a wrong, broken or shorted wire, found before it is hidden.',
  check: (view) =>
    view.plan.lead
      .filter(({ kind }) => kind === 'speaker')
      .map((lead) => {
        const place = `lead ${lead.id}`;
        const reading = mainReading(view.readings(lead.id, 'resistance'));
        const lane = laneOfLead(view, lead);
        if (reading?.value === undefined) return { place, needs: 'what a meter reads on it' };
        const expected = expectedReading(view, lead, reading);
        const read =
          lane === undefined ? undefined : readWiring(lane, lead, view.readings(lead.id, 'resistance'), view.lanes);
        if (expected === undefined || read === undefined)
          return { place, needs: 'the direct-current resistance of its coils' };
        if (read.verdict === 'unique' && read.matches[0] === 'as planned') return null;
        const [low, high] = [ohmWords(expected.lowOhm), ohmWords(expected.highOhm)];
        const like = read.matches.length === 0 ? 'no single mistake' : listed(read.matches);
        const fits = read.matches[0] === 'as planned' ? `It fits ${like} alike` : `It looks like ${like}`;
        return {
          severity: 'stop',
          place,
          message: `${lead.id} reads ${ohmWords(reading.value)}${reading.value === 'open' ? '' : ' ohm'}; plan says ${low} to ${high}. ${fits}.`,
          values: { reads: reading.value, low: expected.lowOhm, high: expected.highOhm, like },
          clears: 'Unplug one driver at a time, read again and say which was unplugged, until only the plan fits.',
        };
      }),
};

import { gainStructure } from '../../electrical/gains/gain-structure.ts';
import { partOfTerminal } from '../../plan/networks.ts';
import { laneDrive } from './loads.ts';
import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

const headroomAssumedDb = 6;

/** S-04. The source is taken to fill the input: what it does not, the processor makes up. */
export const amplifierUnderDriven: Rule = {
  id: 'S-04',
  code: 'amplifier-under-driven',
  why: 'An amplifier that never gets the volts it needs never gives its power.',
  check: ({ lanes, part }) =>
    lanes.flatMap((lane) =>
      lane.channels
        .filter(({ output }) => output !== undefined)
        .map((channel) => {
          const place = `channel ${channel.id}`;
          const processor = part('processor', partOfTerminal(channel.output ?? ''));
          const output = processor?.outputs?.find(({ id }) => `${processor.id}/${id}` === channel.output);
          const { amplifier } = lane;
          if (processor === undefined || amplifier === undefined) return null;
          const { sensitivityMinV: ampSensMinV } = amplifier;
          if (output?.maxV === undefined) return { place, needs: `how many volts ${channel.output} gives` };
          if (ampSensMinV === undefined) return { place, needs: `the sensitivity of ${amplifier.id}` };
          const drive = laneDrive(lane);
          if (drive === undefined) return { place, needs: 'the power of its amplifier into its load' };
          const set = gainStructure({
            sourceCleanV: 1,
            procInMaxV: 1,
            procInRangesV: [1],
            procOutMaxV: output.maxV,
            headroomDb: processor.headroomDb ?? headroomAssumedDb,
            ampSensMinV,
            ampSensMaxV: Math.max(ampSensMinV, amplifier.sensitivityMaxV ?? ampSensMinV),
            ampRatedW: drive.watt,
            loadOhm: drive.ohm,
            makeUpDigital: true,
          });
          if (!set.ok || set.value.shortDb <= 1e-9) return null;
          const { shortDb, procOutV } = set.value;
          const message = `${called(processor)} gives ${said(procOutV)} V; ${called(amplifier)} needs at least ${said(ampSensMinV)} V for full power: ${said(shortDb)} dB short.`;
          return {
            severity: 'fix',
            place,
            message,
            values: { procOutV, ampSensMinV, shortDb },
            clears: 'Use a processor with more output, or an amplifier that needs less.',
          };
        }),
    ),
};

// `practice`: the practice bay: recordings of simulated cars with planted faults, to find and then look up.
import type { Command } from '../command.ts';
import { practiceNear } from '../practice/near.ts';
import { practiceTake } from '../practice/take.ts';

const kinds = { near: practiceNear, take: practiceTake };

export const command: Command = {
  name: 'practice',
  summary: 'render takes of a simulated car with planted faults, the truth beside them',
  usage: 'practice near|take --seed N --out WHERE',
  details:
    'near: a car of five to nine drivers with wiring faults, one recording at each driver, its plan and track, for nearwalk. take: one recording at the seat, for read. The same seed gives the same car; cars, drivers and people are invented.',
  options: [
    { name: 'seed', value: 'N', meaning: 'which car, 0 to 4294967295', default: '1' },
    { name: 'out', value: 'WHERE', meaning: 'near: the folder; take: the recording F.wav (needed)' },
    { name: 'faults', value: 'N', meaning: 'near: wiring faults to plant, 0 to 3', default: '2' },
    { name: 'seconds', value: 'S', meaning: 'near: length of each sweep', default: '6' },
    { name: 'snr', value: 'DB', meaning: 'the sweep over the background', default: 'a quiet parked car' },
    { name: 'place', value: 'PLACE', meaning: 'take: the driver on test, such as door-left', default: 'by the seed' },
    { name: 'hard', meaning: 'take: drivers face away, reflections rival the direct sound' },
    {
      name: 'fault',
      value: 'NAME',
      meaning: 'take: a fault of the recording, such as automatic-gain',
      default: 'none',
    },
  ],
  example: 'kickpanel practice near --seed 7 --faults 2 --out bay',
  run(context) {
    const [kind, ...more] = context.operands;
    if ((kind === 'near' || kind === 'take') && more.length === 0) return kinds[kind](context);
    const message =
      kind === undefined
        ? 'practice what: near or take?'
        : `practice takes near or take, got "${context.operands.join(' ')}".`;
    const mend = 'Call it as: kickpanel practice near --seed 7 --faults 2 --out bay';
    return { status: 2, issues: [{ code: 'bad-practice', message, mend }] };
  },
};

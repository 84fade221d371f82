import { coilsIn } from '../../plan/networks.ts';
import type { Outcome, Rule } from './rule.ts';
import { listed } from './words.ts';

/** S-02. A dual coil on two channels is another matter: L-08 sees to it that both play the same. */
export const channelUsedTwice: Rule = {
  id: 'S-02',
  code: 'channel-used-twice',
  why: 'Two things on one terminal play the same, or fight each other.',
  check: ({ plan }) => {
    const uses = new Map<string, Set<string>>();
    const use = (what: string, by: string) => uses.set(what, (uses.get(what) ?? new Set()).add(by));
    const open: Outcome[] = [];
    for (const { id, output, amplifier, spare } of plan.channel) {
      if (output !== undefined) use(`processor output ${output}`, `channel ${id}`);
      else if (!spare) open.push({ place: `channel ${id}`, needs: 'its processor output' });
      if (amplifier !== undefined) use(`amplifier input ${amplifier}`, `channel ${id}`);
    }
    for (const { id, amplifier, bridgedWith, network } of plan.load) {
      for (const end of [amplifier, bridgedWith]) if (end !== undefined) use(`amplifier output ${end}`, `load ${id}`);
      for (const coil of network === undefined ? [] : new Set(coilsIn(network))) use(`coil ${coil}`, `load ${id}`);
    }
    const twice = [...uses].filter(([, by]) => by.size > 1);
    return [
      ...twice.map(([what, by]): Outcome => {
        const users = listed([...by]);
        const message = `The ${what} is used by ${users}.`;
        return { severity: 'stop', place: what, message, values: { users }, clears: 'Give each one of its own.' };
      }),
      ...open,
    ];
  },
};

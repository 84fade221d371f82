import type { Outcome, Rule } from './rule.ts';
import { called } from './words.ts';

/** S-03. */
export const chainBroken: Rule = {
  id: 'S-03',
  code: 'chain-broken',
  why: 'Something in the chain leads nowhere: a part too many, or a wire forgotten.',
  check: ({ plan, lanesOf, part }) => {
    const wrong = (place: string, who: string, misses: string, clears: string): Outcome => ({
      severity: 'fix',
      place,
      message: `${who} is not connected to anything: ${misses}.`,
      values: { misses },
      clears,
    });
    const driven = new Set(plan.load.flatMap(({ amplifier, bridgedWith }) => [amplifier, bridgedWith]));
    return [
      ...plan.channel
        .filter(({ spare }) => !spare)
        .map((channel) => {
          const place = `channel ${channel.id}`;
          if (channel.amplifier === undefined) {
            return wrong(
              place,
              called(channel),
              'no amplifier channel',
              'Give it an amplifier channel, or mark it spare.',
            );
          }
          if (driven.has(channel.amplifier)) return null;
          if (plan.load.some(({ amplifier }) => amplifier === undefined)) {
            return { place, needs: 'which load its amplifier channel drives' };
          }
          return wrong(place, called(channel), `nothing is wired to ${channel.amplifier}`, 'Wire drivers to it.');
        }),
      ...plan.driver
        .filter((driver) => lanesOf(driver.id).length > 0 && part('place', driver.place) === undefined)
        .map((driver) => wrong(`driver ${driver.id}`, called(driver), 'it has no place', 'Say where it sits.')),
    ];
  },
};

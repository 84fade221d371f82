import { sameValue } from '../../plan/changes.ts';
import type { Rule } from './rule.ts';
import { called } from './words.ts';

/** L-08. */
export const coilsFedDifferently: Rule = {
  id: 'L-08',
  code: 'coils-fed-differently',
  why: 'Coils on one former that get different signals push current through each other and heat up.',
  check: ({ plan, lanesOf }) =>
    plan.driver
      .map((driver) => ({ driver, lanes: lanesOf(driver.id) }))
      .filter(({ lanes }) => lanes.length > 1)
      .map(({ driver, lanes }) => {
        const place = `driver ${driver.id}`;
        const channels = lanes.map(({ channels }) => channels.at(0));
        if (channels.includes(undefined)) return { place, needs: 'the channels of all its coils' };
        const [first, ...others] = channels.map((channel) => {
          const { inputs, highPass, lowPass, polarity, gainDb = 0, delayMs = 0 } = channel ?? {};
          return { inputs, highPass, lowPass, polarity, gainDb, delayMs };
        });
        if (first.highPass === undefined || first.lowPass === undefined)
          return { place, needs: 'the crossover of its channels' };
        if (others.every((other) => sameValue(first, other))) return null;
        const names = channels.map((channel) => channel?.id ?? '');
        const message = `Both coils of ${called(driver)} must get the same signal; ${names.join(' and ')} differ.`;
        const changes = channels.slice(1).flatMap((channel) =>
          channel === undefined
            ? []
            : [
                {
                  part: 'channel' as const,
                  id: channel.id,
                  value: { ...channels[0], ...pick(channel) } as typeof channel,
                },
              ],
        );
        return {
          severity: 'fix',
          place,
          message,
          values: { channels: names.join(' ') },
          clears: `Set them like ${names[0]}.`,
          changes,
        };
      }),
};

/** What stays a channel's own. */
function pick<Channel extends { id: string; name?: string; output?: string; amplifier?: string }>(channel: Channel) {
  const { id, name, output, amplifier } = channel;
  return {
    id,
    ...(name === undefined ? {} : { name }),
    ...(output === undefined ? {} : { output }),
    ...(amplifier === undefined ? {} : { amplifier }),
  };
}

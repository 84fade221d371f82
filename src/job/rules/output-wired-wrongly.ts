import { partOfTerminal } from '../../plan/networks.ts';
import type { Rule } from './rule.ts';

/** L-07. */
export const outputWiredWrongly: Rule = {
  id: 'L-07',
  code: 'output-wired-wrongly',
  why: 'An output that is bridged, shared or grounded against its design is destroyed at switch-on.',
  check: ({ plan, part }) =>
    plan.load.map(({ id, amplifier, bridgedWith, minusShared }) => {
      const place = `load ${id}`;
      const device = part('amplifier', partOfTerminal(amplifier ?? ''));
      const wrong = (how: string, clears: string) => ({
        severity: 'stop' as const,
        place,
        message: `${amplifier ?? id} must not be wired this way: ${how}.`,
        values: { how },
        clears,
      });
      if (minusShared === true) return wrong('its minus is shared or grounded', 'Give each load two leads of its own.');
      if (bridgedWith === undefined || device === undefined) return null;
      if (device.fullBridge === true) return wrong('each channel is bridged inside already', 'Use one channel.');
      if (device.bridgeable === false) return wrong('it has no bridge mode', 'Use one channel.');
      if (device.bridgeable === undefined) return { place, needs: `whether ${device.id} may be bridged` };
      return device.fullBridge === undefined ? { place, needs: `whether ${device.id} is bridged inside` } : null;
    }),
};

import type { Rule } from './rule.ts';
import { called } from './words.ts';

/** E-17. A 24 V vehicle needs 24 V equipment or a converter, never the middle of its pair of batteries. */
export const supplyVoltageWrong: Rule = {
  id: 'E-17',
  code: 'supply-voltage-wrong',
  why: '12 V equipment dies on 24 V, and one battery of a pair alone is over-charged while the other starves.',
  check: ({ plan }) => {
    const vehicle = plan.vehicle.at(0);
    const devices = [...plan.source, ...plan.processor, ...plan.amplifier];
    const tapped = plan.battery
      .filter(({ centreTapUsed }) => centreTapUsed)
      .map((battery) => ({
        severity: 'stop' as const,
        place: `battery ${battery.id}`,
        message: `${called(battery)} feeds 12 V from the middle of the pair: one battery starves.`,
        values: { battery: battery.id },
        clears: 'Take 12 V from a converter across the whole pair.',
      }));
    if (vehicle?.systemVoltageV === undefined) {
      return devices.length === 0 ? tapped : [...tapped, { place: 'vehicle', needs: 'its system voltage' }];
    }
    const { systemVoltageV, converterTo12V = false } = vehicle;
    const wrong = devices.map((device) => {
      const place = `device ${device.id}`;
      if (systemVoltageV === 12 && device.supplyV === undefined) return null;
      if (device.supplyV === undefined) return { place, needs: 'the supply voltage it is made for' };
      if (device.supplyV === systemVoltageV || (device.supplyV === 12 && converterTo12V)) return null;
      const message = `${called(device)} is ${device.supplyV} V; this vehicle is ${systemVoltageV} V.`;
      const values = { supplyV: device.supplyV, systemVoltageV };
      const clears = `Use ${systemVoltageV} V equipment${systemVoltageV === 24 ? ' or a converter to 12 V' : ''}.`;
      return { severity: 'stop' as const, place, message, values, clears };
    });
    return [...tapped, ...wrong];
  },
};

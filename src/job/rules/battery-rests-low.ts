import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** E-19. 12.2 V is half charged for six lead-acid cells at rest. */
export const batteryRestsLow: Rule = {
  id: 'E-19',
  code: 'battery-rests-low',
  why: 'A battery that rests low sags under loud work and may not start the engine afterwards.',
  check: ({ plan, readings }) => {
    const systemVoltageV = plan.vehicle.at(0)?.systemVoltageV;
    return plan.battery.map((battery) => {
      const place = `battery ${battery.id}`;
      const value = readings(battery.id, 'resting-voltage').at(-1)?.value;
      if (typeof value !== 'number') return { place, needs: 'the voltage it rests at' };
      if (systemVoltageV === undefined) return { place, needs: 'the system voltage of the vehicle' };
      const leastV = systemVoltageV === 24 ? 24.4 : 12.2;
      if (value >= leastV) return null;
      const message = `${called(battery)} rests at ${said(value)} V. Charge or test it before loud work.`;
      const values = { restingV: value, leastV };
      return { severity: 'fix', place, message, values, clears: `Charge it until it rests at ${leastV} V or more.` };
    });
  },
};

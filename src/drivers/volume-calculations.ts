// Ports and volumes of boxes as everyday calculations.
import { type Calculation, calculation } from '../base/calculation.ts';
import { choice, named, number, optional, orElse } from '../base/calculation-inputs.ts';
import { type Refusal, refused } from '../base/refusal.ts';
import { success } from '../base/result.ts';
import { boxInput, driverInput, fillInput, sourceInput } from './inputs.ts';
import { type PortEnds, portEnds, portLength, portTuning } from './port.ts';
import { largestPortFlow } from './port-flow.ts';
import { type BoxShape, driverVolumeM3, insideM3 } from './volumes.ts';

const positive = { above: 0 };

const portsInput = {
  vbL: number('L', positive),
  portAreaCm2: number('cm2', positive),
  ports: orElse(number('', { min: 1, max: 100, whole: true }), 1),
  ends: orElse(choice(Object.keys(portEnds) as PortEnds[]), 'one-flanged'),
};

const portsOf = ({ portAreaCm2, ports, ends }: { portAreaCm2: number; ports: number; ends: PortEnds }) => ({
  count: ports,
  areaM2: portAreaCm2 / 1e4,
  ends,
});

const measures = {
  cuboid: ['widthMm', 'heightMm', 'depthMm'],
  wedge: ['widthMm', 'heightMm', 'depthTopMm', 'depthBottomMm'],
  cylinder: ['diameterMm', 'lengthMm'],
} as const;
type Shape = keyof typeof measures;
type Measure = (typeof measures)[Shape][number];

/** A shape that is not known is told by its own input; here it only must not be looked up. */
const isShape = (shape: unknown): shape is Shape => typeof shape === 'string' && Object.hasOwn(measures, shape);

const millimetres = optional(number('mm', positive), 'as the shape needs');

/** The shape's measures in metres; what the shape does not have is not looked at. */
function shapeOf(shape: Shape, given: Partial<Record<Measure, number | undefined>>): BoxShape {
  const metres = Object.fromEntries(
    measures[shape].map((name) => [`${name.slice(0, -2)}M`, (given[name] ?? 0) / 1000]),
  );
  return { shape, ...metres } as BoxShape;
}

export const volumeCalculations: readonly Calculation[] = [
  calculation({
    name: 'portLength',
    about: 'length of a port for a tuning',
    inputs: { ...portsInput, fbHz: number('Hz', positive) },
    answer({ vbL, fbHz, ...ports }) {
      const found = portLength(vbL / 1000, fbHz, portsOf(ports));
      if (!found.ok) return found;
      const { lengthM, volumeM3, ...rest } = found.value;
      return success({ lengthMm: 1000 * lengthM, volumeL: 1000 * volumeM3, ...rest });
    },
  }),
  calculation({
    name: 'portTune',
    about: 'tuning of a box with a built port',
    inputs: { ...portsInput, lengthMm: number('mm', positive) },
    answer: ({ vbL, lengthMm, ...ports }) => success({ fbHz: portTuning(vbL / 1000, lengthMm / 1000, portsOf(ports)) }),
  }),
  calculation({
    name: 'portAreaFor',
    about: 'port area that keeps the air in it under a speed',
    inputs: {
      driver: driverInput,
      box: boxInput(['vented', 'bandpass4']),
      sourceOhm: sourceInput,
      voltRms: number('V', positive),
      fromHz: number('Hz', positive),
      toHz: number('Hz', positive),
      limitMps: number('m/s', positive),
    },
    answer({ driver, box, sourceOhm, voltRms, fromHz, toHz, limitMps }) {
      if (!(fromHz < toHz)) {
        const message = `A range from ${fromHz} Hz to ${toHz} Hz is none.`;
        return refused('contradiction', 'toHz', message, 'Give fromHz below toHz.');
      }
      const { flowM3PerS, atHz } = largestPortFlow(driver, box, sourceOhm, { fromHz, toHz });
      return success({ areaCm2: (1e4 * flowM3PerS * voltRms) / limitMps, atHz });
    },
  }),
  calculation({
    name: 'netVolume',
    about: 'what a box holds inside its panels, less what stands in it',
    inputs: {
      shape: choice(['cuboid', 'wedge', 'cylinder']),
      panelMm: number('mm', { min: 0 }),
      widthMm: millimetres,
      heightMm: millimetres,
      depthMm: millimetres,
      depthTopMm: millimetres,
      depthBottomMm: millimetres,
      diameterMm: millimetres,
      lengthMm: millimetres,
      takenL: optional(named(number('L', { min: 0 })), 'nothing'),
      fillGain: fillInput,
    },
    alsoMissing: (given) =>
      (isShape(given.shape) ? measures[given.shape] : []).flatMap((name): Refusal[] => {
        if (given[name] !== undefined) return [];
        const message = `${name} is missing: a ${given.shape} has it.`;
        return [{ code: 'missing', message, where: name, mend: `Give ${name} in mm.` }];
      }),
    answer({ shape, panelMm, takenL, fillGain, ...given }) {
      const gross = insideM3(shapeOf(shape, given), panelMm / 1000);
      if (gross === null) {
        const message = `Panels of ${panelMm} mm leave nothing inside.`;
        return refused('contradiction', 'panelMm', message, 'Give outside measures of more than two panels.');
      }
      const grossL = 1000 * gross;
      const taken = [...(takenL?.values() ?? [])].reduce((sum, litres) => sum + litres, 0);
      const netL = grossL - taken;
      if (!(netL > 0)) {
        const message = `${taken} L are taken of ${grossL.toFixed(1)} L.`;
        return refused('contradiction', 'takenL', message, 'Give a larger box.');
      }
      return success({ grossL, takenL: taken, netL, effectiveL: netL * fillGain });
    },
  }),
  calculation({
    name: 'driverTakes',
    about: 'volume that a driver takes of its box, at most',
    inputs: {
      basketMm: number('mm', positive),
      magnetMm: number('mm', positive),
      depthMm: number('mm', positive),
      magnetDepthMm: number('mm', { min: 0 }),
    },
    answer({ basketMm, magnetMm, depthMm, magnetDepthMm }) {
      if (magnetDepthMm > depthMm) {
        const message = `A magnet of ${magnetDepthMm} mm is deeper than its driver of ${depthMm} mm.`;
        return refused('contradiction', 'magnetDepthMm', message, 'Give the whole depth, magnet included.');
      }
      const [basketM, magnetM, depthM, magnetDepthM] = [basketMm, magnetMm, depthMm, magnetDepthMm].map(
        (millimetre) => millimetre / 1000,
      );
      return success({ litres: 1000 * driverVolumeM3({ basketM, magnetM, depthM, magnetDepthM }) });
    },
  }),
];

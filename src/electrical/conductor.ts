// A conductor as the installer knows it: metal, size by gauge or area, temperature. And what a metre of it resists.
import { choice, number, optional, orElse, type Values } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';
import { wireArea } from './wire-area.ts';

/**
 * Resistivity at 20 C in ohm mm2/m, and its rise per kelvin.
 *
 * Sources: IEC 60028 (annealed copper); ASTM B566 (copper-clad aluminium, 15 and 10 % copper by volume); aluminium of
 * 61 % of copper's conductivity.
 */
export const conductorMaterials = {
  copper: { rho20: 0.017241, alpha: 0.00393 },
  cca15: { rho20: 0.02676, alpha: 0.00405 },
  cca10: { rho20: 0.02743, alpha: 0.00405 },
  aluminium: { rho20: 0.028264, alpha: 0.00403 },
} as const;

export type ConductorMaterial = keyof typeof conductorMaterials;

/** One conductor. `areaMm2` is the metal that is there: a size factor for thin cable is already in it. */
export interface Conductor {
  material: ConductorMaterial;
  /** Above 0. */
  areaMm2: number;
  /** -60 .. 250. */
  tempC: number;
}

/**
 * Resistance of a metre of conductor, ohm/m: rho20 (1 + alpha (T - 20)) / area.
 *
 * @example ohmPerMetre({ material: 'copper', areaMm2: 25, tempC: 20 }) // 0.00068964
 */
export function ohmPerMetre({ material, areaMm2, tempC }: Conductor): number {
  const { rho20, alpha } = conductorMaterials[material];
  return (rho20 * (1 + alpha * (tempC - 20))) / areaMm2;
}

const materials = Object.keys(conductorMaterials) as ConductorMaterial[];

/** Inputs of every calculation about a wire; its size comes as `awg` or as `areaMm2`. */
export const conductorInputs = {
  material: orElse(choice(materials), 'copper'),
  awg: optional(number('', { min: -3, max: 40 }), 'areaMm2'),
  areaMm2: optional(number('mm2', { above: 0 }), 'from awg'),
  sizeFactor: orElse(number('', { above: 0 }), 1),
  tempC: orElse(number('C', { min: -60, max: 250 }), 20),
};

/** The group of which one must be given, for `eitherOf`. */
export const conductorSize: ['awg', 'areaMm2'] = ['awg', 'areaMm2'];

/** How far gauge and area may lie apart when both are given. */
const sizeTolerance = 0.01;

/** The conductor that checked inputs describe; a gauge and an area that are not the same size are refused. */
export function conductorFrom(values: Omit<Values<typeof conductorInputs>, 'tempC'>, tempC = 20): Result<Conductor> {
  const { material, awg, areaMm2, sizeFactor } = values;
  const fromGauge = awg === undefined ? undefined : wireArea({ awg }).areaMm2;
  if (areaMm2 !== undefined && fromGauge !== undefined && Math.abs(areaMm2 / fromGauge - 1) > sizeTolerance) {
    const message = `awg ${awg} is ${fromGauge.toPrecision(4)} mm2, not ${areaMm2} mm2.`;
    return refused('contradiction', 'areaMm2', message, 'Give awg or areaMm2, whichever the metal has.');
  }
  return success({ material, areaMm2: (areaMm2 ?? fromGauge ?? 0) * sizeFactor, tempC });
}

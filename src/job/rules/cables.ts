// What a cable of the plan is and may carry: from what is known of it, with the shop's usual assumptions.

import { allowedCurrent } from '../../electrical/allowed-current.ts';
import type { Conductor, ConductorMaterial } from '../../electrical/conductor.ts';
import { wireArea } from '../../electrical/wire-area.ts';
import type { PartOf } from '../../plan/plan.ts';

type Cable = Pick<PartOf<'run'>, 'areaMm2' | 'gauge' | 'material' | 'sizeFactor'>;

/** Metal in a cable against what its mark promises: flexible and gauge-marked cable holds less. */
const sizeFactorAssumed = 0.9;
const insulationAssumedC = 105;
const ambientAssumedC = 50;

const materials: Record<NonNullable<Cable['material']>, ConductorMaterial> = {
  copper: 'copper',
  'copper-clad-aluminium-15': 'cca15',
  'copper-clad-aluminium-10': 'cca10',
  aluminium: 'aluminium',
  unknown: 'cca10',
};

/** Area by its mark, mm2; undefined where neither area nor gauge is given. */
export function markedAreaMm2({ areaMm2, gauge }: Cable): number | undefined {
  if (areaMm2 !== undefined) return areaMm2;
  return gauge === undefined ? undefined : wireArea({ awg: gauge }).areaMm2;
}

/** The metal of a cable at 20 C, or undefined where size or material is not known. */
export function conductorOf(cable: Cable): Conductor | undefined {
  const areaMm2 = markedAreaMm2(cable);
  if (areaMm2 === undefined || cable.material === undefined) return undefined;
  return { material: materials[cable.material], areaMm2: areaMm2 * (cable.sizeFactor ?? sizeFactorAssumed), tempC: 20 };
}

/** Current that a run may carry where it lies, A; 0 where its insulation stands no heat; undefined where not known. */
export function allowedA(run: PartOf<'run'>): number | undefined {
  if (run.allowedA !== undefined) return run.allowedA;
  const conductor = conductorOf(run);
  if (conductor === undefined) return undefined;
  const underTrim = (run.under ?? []).length > 0;
  const allowed = allowedCurrent(conductor, {
    insulationC: run.insulationC ?? insulationAssumedC,
    ambientC: run.ambientC ?? ambientAssumedC,
    bundled: run.bundled ?? 1,
    cover: run.covering ?? (underTrim ? 'under-trim' : 'open'),
  });
  return allowed.ok ? allowed.value.allowedA : 0;
}

/** A cable as its label says it: "R1 (35 mm2 copper)". */
export function cableWords({ id, areaMm2, gauge, material }: Cable & { id: string }): string {
  const size = areaMm2 !== undefined ? `${areaMm2} mm2` : gauge !== undefined ? `gauge ${gauge}` : '';
  const metal = material === undefined ? '' : ` ${material.replaceAll('-', ' ')}`;
  return size === '' ? id : `${id} (${size}${metal})`;
}

/** Sizes sold, mm2. */
export const soldMm2 = [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120];

/** The smallest copper cable sold that carries `currentA` where `run` lies, mm2; undefined where none does. */
export function copperFor(run: PartOf<'run'>, currentA: number): number | undefined {
  return soldMm2.find((areaMm2) => (allowedA(inCopper(run, areaMm2)) ?? 0) >= currentA);
}

/** The same run in copper of `areaMm2`; a maker's current for the old cable goes with it. */
export function inCopper(run: PartOf<'run'>, areaMm2: number): PartOf<'run'> {
  const { allowedA: _, gauge: __, ...place } = run;
  return { ...place, areaMm2, material: 'copper' };
}

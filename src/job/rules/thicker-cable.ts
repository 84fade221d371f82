// The one cable on the way to an amplifier that, thicker, would lose little enough.
import { ohmPerMetre } from '../../electrical/conductor.ts';
import type { PlanChange } from '../../plan/changes.ts';
import type { PartOf } from '../../plan/plan.ts';
import { conductorOf, inCopper, markedAreaMm2, soldMm2 } from './cables.ts';
import type { Arrives, LossyCable } from './currents.ts';

export interface Thicker {
  areaMm2: number;
  id: string;
  /** What would be lost on the whole way. */
  dropV: number;
  changes: PlanChange[];
}

function inSize(lossy: LossyCable, areaMm2: number): PlanChange & { value: PartOf<'run'> | PartOf<'ground'> } {
  if (lossy.part === 'run') return { part: 'run', id: lossy.cable.id, value: inCopper(lossy.cable, areaMm2) };
  const { gauge: _, ...lead } = lossy.cable;
  return { part: 'ground', id: lead.id, value: { ...lead, areaMm2, material: 'copper' } };
}

/**
 * The smallest copper sold for the cable that loses most, so that the whole way loses no more than `dropMaxV`; null where
 * no size of that one cable is enough. A ground lead follows its positive one, which it may not be thinner than.
 */
export function thickerCable({ cables, dropV }: Arrives, dropMaxV: number): Thicker | null {
  const most = cables.reduce((worst, one) => (one.dropV > worst.dropV ? one : worst));
  const ground = cables.find(({ part }) => part === 'ground');
  for (const areaMm2 of soldMm2) {
    if (areaMm2 <= (markedAreaMm2(most.cable) ?? 0)) continue;
    const follows = most === cables[0] && ground !== undefined && (markedAreaMm2(ground.cable) ?? 0) < areaMm2;
    const changed = follows ? [most, ground] : [most];
    const changes = changed.map((one) => inSize(one, areaMm2));
    const leftV = changed.reduce((left, one, n) => {
      const conductor = conductorOf(changes[n].value);
      const ohm = conductor === undefined ? 0 : ohmPerMetre(conductor) * (one.cable.lengthM ?? 0);
      return left - one.dropV + one.sineA * ohm;
    }, dropV);
    if (leftV <= dropMaxV) return { areaMm2, id: most.cable.id, dropV: leftV, changes };
  }
  return null;
}

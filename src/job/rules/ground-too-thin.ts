import type { PartOf } from '../../plan/plan.ts';
import { markedAreaMm2 } from './cables.ts';
import type { Rule } from './rule.ts';
import { said } from './words.ts';

/** The ground lead in the size of the positive one. */
function asThickAs(ground: PartOf<'ground'>, { areaMm2, gauge }: PartOf<'run'>): PartOf<'ground'> {
  const { areaMm2: _, gauge: __, ...lead } = ground;
  return { ...lead, ...(areaMm2 !== undefined ? { areaMm2 } : gauge === undefined ? {} : { gauge }) };
}

/** E-11. */
export const groundTooThin: Rule = {
  id: 'E-11',
  code: 'ground-too-thin',
  why: 'All the current that goes in comes back through the ground lead.',
  check: (view, { groundLengthMaxM }) =>
    view.plan.ground.map((ground) => {
      const place = `ground ${ground.id}`;
      const run = view.runsTo(ground.of ?? '').at(0);
      const [areaMm2, positiveMm2] = [markedAreaMm2(ground), run === undefined ? undefined : markedAreaMm2(run)];
      const { lengthM } = ground;
      const thin = areaMm2 !== undefined && positiveMm2 !== undefined && areaMm2 < positiveMm2 * (1 - 1e-9);
      const long = lengthM !== undefined && lengthM > groundLengthMaxM;
      if (!thin && !long) {
        if (areaMm2 === undefined) return { place, needs: 'its size' };
        if (lengthM === undefined) return { place, needs: 'its length' };
        return positiveMm2 === undefined ? { place, needs: 'the size of the positive lead' } : null;
      }
      const size = areaMm2 === undefined ? 'of unknown size' : `${said(areaMm2)} mm2`;
      const length = lengthM === undefined ? '' : ` x ${said(lengthM)} m`;
      const positive = positiveMm2 === undefined ? '' : `; positive is ${said(positiveMm2)} mm2`;
      const values = {
        ...(areaMm2 === undefined ? {} : { areaMm2 }),
        ...(positiveMm2 === undefined ? {} : { positiveMm2 }),
        ...(lengthM === undefined ? {} : { lengthM }),
      };
      const clears = `Use the size of the positive lead and no more than ${said(groundLengthMaxM)} m.`;
      return {
        severity: 'fix',
        place,
        message: `Ground lead of ${ground.of} is ${size}${length}${positive}.`,
        values,
        clears,
        // A shorter way is found in the car, not in the plan.
        ...(thin && !long && run !== undefined
          ? { changes: [{ part: 'ground' as const, id: ground.id, value: asThickAs(ground, run) }] }
          : {}),
      };
    }),
};

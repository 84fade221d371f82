import type { Rule } from './rule.ts';
import { called, said } from './words.ts';

/** Standard gravity, m/s2, and the planning load of a crash: 20 times its weight forward (practice). */
const GRAVITY = 9.80665;
const FORWARD = 20;

/** B-03. A box that no fixing holds in structure hangs in trim or carpet, however light it is. */
export const boxHeldBadly: Rule = {
  id: 'B-03',
  code: 'box-held-badly',
  why: 'In a crash a loose box is a missile of many times its weight.',
  check: ({ plan }, { boxMassKg, boxFixings }) =>
    plan.enclosure
      .filter(({ kind }) => kind !== 'infinite-baffle')
      .map((box) => {
        const place = `enclosure ${box.id}`;
        const { structuralFixings: fixings } = box;
        if (fixings !== undefined && fixings >= boxFixings) return null;
        const masses = [box, ...plan.driver.filter(({ enclosure }) => enclosure === box.id)].map(
          ({ massKg }) => massKg,
        );
        const knownKg = masses.reduce<number>((sum, kg) => sum + (kg ?? 0), 0);
        const complete = !masses.includes(undefined);
        if (complete && knownKg <= boxMassKg && fixings !== 0 && fixings !== undefined) return null;
        if (fixings === undefined) return { place, needs: 'how many fixings go into structure' };
        if (fixings > 0 && knownKg <= boxMassKg) return { place, needs: 'its mass, drivers with it' };
        const forwardN = Math.round(knownKg * FORWARD * GRAVITY);
        const weighs = complete ? `${said(knownKg)} kg` : `${said(knownKg)} kg or more`;
        const load = knownKg > 0 ? ` (${weighs}) needs ${forwardN} N of holding forward` : ' needs holding';
        const held = fixings === 0 ? 'no fixing in structure' : `${fixings} fixing in structure`;
        return {
          severity: 'stop',
          place,
          message: `${called(box)}${load}; it has ${held}.`,
          values: { massKg: knownKg, forwardN, fixings },
          clears: `Fix it with ${boxFixings} or more M8 into structure, with backing plates; no seat-belt bolts.`,
          changes: [{ part: 'enclosure', id: box.id, value: { ...box, structuralFixings: boxFixings } }],
        };
      }),
};

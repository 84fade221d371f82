// Every field of every kind of part taken out, and set to either end of its range: the rules, the lead list, the hold
// points and the gain sheet hold.
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { gainSheet } from '../../src/job/gains/gain-sheet.ts';
import { holdPointsOf } from '../../src/job/hold-points/hold-points.ts';
import { leadList } from '../../src/job/leads/lead-list.ts';
import { initialState } from '../../src/job/projections/evolve.ts';
import { findingsOf } from '../../src/job/rules/findings.ts';
import { type PartKind, type Plan, partKinds, partSchemas } from '../../src/plan/plan.ts';
import { templatePlan } from '../../src/plan/templates/templates.ts';
import { planOf } from '../plan/rule-cases.ts';

type Fields = Record<string, unknown>;
interface Form {
  minimum?: number;
  maximum?: number;
  enum?: unknown[];
  anyOf?: Form[];
  type?: string;
}

/** A plan in which every kind has a part and every driver, box, cable and reading says all that rules look at. */
function fullPlan(): Plan {
  const plan = structuredClone(templatePlan('two-way-front-sub')) as unknown as Record<PartKind, Fields[]>;
  const every = (kind: PartKind, more: Fields) => {
    plan[kind] = plan[kind].map((part) => ({ ...part, ...more }));
  };
  const cable = { areaMm2: 16, material: 'copper', lengthM: 5, near: [] };
  every('run', { ...cable, shortTested: true });
  every('fuse', { atM: 0.2, ratedA: 60 });
  every('ground', { areaMm2: 16, material: 'copper', lengthM: 0.4, point: 'floor', fromProcessorM: 2 });
  plan.ground.push({ id: 'G9', of: 'H', point: 'dash', fromProcessorM: 3 });
  every('lead', { ...cable, areaMm2: 1.5 });
  every('amplifier', { ambientC: 45, fullTonePlanned: true, groundAt: 'floor' });
  every('processor', { groundAt: 'floor' });
  every('source', { groundAt: 'dash' });
  every('place', { depthMm: 100, glassTravelMm: 10, restraint: false });
  every('cover', { duringTakes: 'fastened' });
  every('seat', { targetLevelDb: 110, pushMinutes: 10, pushLevelDba: 95 });
  every('vehicle', { systemVoltageV: 12, alternatorA: 120, vehicleLoadA: 35, cabinVolumeM3: 3 });
  plan.seat[0].distances = plan.place.map(({ id }) => ({ place: id, distanceM: 1 }));
  plan.enclosure = [
    {
      id: 'BOX',
      kind: 'vented',
      netL: 40,
      sheetNetL: 40,
      rearL: 20,
      tuningHz: 35,
      portAreaCm2: 80,
      massKg: 12,
      structuralFixings: 1,
    },
  ];
  plan.driver = plan.driver.map((driver) =>
    driver.kind === 'sub' ? { ...driver, enclosure: 'BOX', facing: 'down', gapUnderConeMm: 60 } : driver,
  );
  plan.reading = [
    { id: 'M1', of: 'L11', quantity: 'resistance', value: 3.5 },
    { id: 'M2', of: 'G2', quantity: 'ground-drop', value: 0.1, currentA: 30 },
  ];
  return planOf(plan);
}

/** Both ends of what a field may hold. */
function endsOf(form: Form): unknown[] {
  if (form.anyOf !== undefined) return form.anyOf.flatMap(endsOf);
  if (form.enum !== undefined) return form.enum;
  if (form.type === 'boolean') return [true, false];
  if (form.type === 'null') return [null];
  return [form.minimum, form.maximum].filter((end) => end !== undefined);
}

/** Whatever is no number where one should be, or says so in words. */
function unsound(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (typeof value === 'string') return /NaN|Infinity|undefined|\[object/.test(value) ? [`${path} says ${value}`] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => unsound(inner, `${path}.${key}`));
}

const full = fullPlan();

describe.each(partKinds.filter((kind) => full[kind].length > 0))('a plan whose every %s', (kind) => {
  const { properties, required } = z.toJSONSchema(partSchemas[kind], { io: 'input' }) as {
    properties: Record<string, Form>;
    required: string[];
  };
  test.each(Object.keys(properties).filter((field) => field !== 'id'))('lacks %s or has it at its ends', (field) => {
    const states = [...(required.includes(field) ? [] : [undefined]), ...endsOf(properties[field])];
    for (const state of states) {
      const parts = (full[kind] as unknown as Fields[]).map(({ [field]: _, ...rest }) =>
        state === undefined ? rest : { ...rest, [field]: state },
      );
      const plan = planOf({ ...full, [kind]: parts });
      const { findings, cannotTell } = findingsOf(plan);
      const started = initialState('j1');
      const job = { ...started, plan: { ...started.plan, parts: plan } };
      expect(unsound([findings, cannotTell, leadList(plan), holdPointsOf(job), gainSheet(job)])).toEqual([]);
      for (const { id, changes = [] } of findings) {
        for (const { part, value } of changes) {
          expect([id, partSchemas[part].nullable().safeParse(value).success]).toEqual([id, true]);
        }
      }
    }
  });
});

test('the plan that is taken apart says enough for every kind of rule to speak', () => {
  const { cannotTell } = findingsOf(full);
  const silent = new Set(cannotTell.map(({ id }) => id));
  for (const rule of ['D-05', 'D-10', 'D-11', 'D-13', 'E-10', 'E-12', 'P-03', 'P-04', 'S-06', 'S-07', 'X-04', 'B-01']) {
    expect(silent).not.toContain(rule);
  }
});

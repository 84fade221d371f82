// Any order of plan changes, evidence and undo: what is closed was proven after the last change of what it rests on.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Bench, openJob } from '../../../test/job/given.ts';
import { emptyPlan, type Part, type PartKind, type Plan, partKinds } from '../../plan/plan.ts';
import type { Command } from '../commands/commands.ts';
import { journalOf } from '../journal.ts';
import { planView } from '../rules/plan-view.ts';
import { basisOf } from './basis.ts';
import { holdPointsIn, holdPointsOf, isOpen } from './hold-points.ts';

type Choice = [PartKind, string, Record<string, unknown> | null];

/** States that a few parts may have; words change in some of them, and what others rest on in the rest. */
const choices: Choice[] = [
  ['driver', 'D1', { kind: 'mid', coils: 1, coilOhm: 4, reOhm: 3.4, thermalW: 50 }],
  ['driver', 'D1', { kind: 'mid', coils: 1, coilOhm: 4, reOhm: 3.2, thermalW: 50 }],
  ['driver', 'D1', { kind: 'mid', coils: 1, coilOhm: 4, reOhm: 3.4, thermalW: 50, note: 'new' }],
  ['driver', 'D2', { kind: 'mid', coils: 1, coilOhm: 4, reOhm: 3.4 }],
  ['load', 'N1', { amplifier: 'A/1', network: 'D1/1' }],
  ['load', 'N1', { amplifier: 'A/1', network: { s: ['D1/1', 'D2/1'] } }],
  ['load', 'N1', { amplifier: 'A/2', network: 'D1/1' }],
  ['load', 'N2', { amplifier: 'A/1', network: 'D2/1' }],
  ['load', 'N2', null],
  ['amplifier', 'A', { channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 75 }] }], sensitivityMinV: 0.2 }],
  ['amplifier', 'A', { channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 90 }] }], sensitivityMinV: 0.2 }],
  ['channel', 'C1', { output: 'DSP/1', amplifier: 'A/1' }],
  ['channel', 'C1', { output: 'DSP/1', amplifier: 'A/1', delayMs: 3 }],
  ['channel', 'C1', { output: 'DSP/2', amplifier: 'A/1' }],
  ['lead', 'L1', { kind: 'speaker', from: 'A/1', to: 'D1' }],
  ['lead', 'L1', { kind: 'speaker', from: 'A/1', to: 'D1', colour: 'blue' }],
  ['lead', 'L1', { kind: 'speaker', from: 'A/2', to: 'D1' }],
  ['lead', 'L1', null],
  ['processor', 'DSP', { outputs: [{ id: '1' }] }],
  ['run', 'R1', { from: 'BAT', to: 'A', areaMm2: 16 }],
  ['run', 'R1', { from: 'BAT', to: 'A', areaMm2: 25 }],
  ['ground', 'G1', { of: 'A' }],
  ['holdPoint', 'H1', { of: 'L1', name: 'grommet' }],
];

type Step = { part: number } | { prove: number } | { undo: number };

const steps = fc.array(
  fc.oneof(
    { weight: 5, arbitrary: fc.record({ part: fc.nat(choices.length - 1) }) },
    { weight: 5, arbitrary: fc.record({ prove: fc.nat(30) }) },
    { weight: 1, arbitrary: fc.record({ undo: fc.nat(40) }) },
  ),
  { minLength: 10, maxLength: 45 },
);

/** Does what can be done of a step; what is refused is left out. */
function tried(bench: Bench, step: Step): void {
  const wish = wishOf(bench, step);
  if (wish !== null && bench.decided(wish).ok) bench.does(wish);
}

function wishOf(bench: Bench, step: Step): Command | null {
  if ('part' in step) {
    const [part, id, value] = choices[step.part];
    return value === null ? { command: 'removePlanPart', part, id } : { command: 'setPlanPart', part, id, value };
  }
  if ('undo' in step) {
    const entry = bench.entries[1 + (step.undo % Math.max(1, bench.entries.length - 1))]?.id;
    return entry === undefined ? null : { command: 'undo', entry };
  }
  const points = holdPointsOf(bench.state);
  const point = points[step.prove % Math.max(1, points.length)];
  if (point === undefined) return null;
  const { accepts, expected, id } = point;
  const middle = expected?.target ?? expected?.low ?? 1;
  return {
    command: 'giveEvidence',
    holdPoints: [id],
    evidence: accepts.includes('seen')
      ? { how: 'seen', name: 'Ben' }
      : { how: 'measured', value: middle, unit: expected?.unit ?? 'ohm' },
  };
}

/** Entries that count, in their order, each with the plan before and after it: told without what the job itself tracks. */
function history(bench: Bench): { id: string; kind: string; holdPoints: string[]; before: Plan; after: Plan }[] {
  const { withdrawn } = journalOf('j1', bench.entries);
  let plan = emptyPlan();
  return bench.entries
    .filter(({ id }) => !withdrawn.has(id))
    .map(({ id, kind, data }) => {
      const before = plan;
      if (kind === 'plan-changed') {
        for (const { change } of data.changes as unknown as {
          change: { part: PartKind; id: string; value: Part | null };
        }[]) {
          const rest = (plan[change.part] as Part[]).filter((part) => part.id !== change.id);
          plan = { ...plan, [change.part]: change.value === null ? rest : [...rest, change.value] };
        }
      }
      return { id, kind, holdPoints: (data.holdPoints as string[] | undefined) ?? [], before, after: plan };
    });
}

const words = ['name', 'note', 'colour'];

/** Whether an entry changed something that the hold point rests on, by what the plan is now or was before it. */
function shakes(point: string, { before, after }: { before: Plan; after: Plan }, now: Plan): boolean {
  return [...basisOf(now, point)].some(({ part, id, fields }) => {
    const [was, is] = [before, after].map((plan) => (plan[part] as Part[]).find((known) => known.id === id)) as (
      | Record<string, unknown>
      | undefined
    )[];
    if (was === undefined || is === undefined) return was !== is;
    const looked =
      fields ?? [...new Set([...Object.keys(was), ...Object.keys(is)])].filter((key) => !words.includes(key));
    return looked.some((field) => JSON.stringify(was[field]) !== JSON.stringify(is[field]));
  });
}

test('whatever happens in whatever order, no hold point is closed by evidence older than a change of what it rests on', () => {
  let closedSeen = 0;
  let reopenedSeen = 0;
  fc.assert(
    fc.property(steps, (list) => {
      const bench = new Bench().does(openJob);
      for (const step of list) tried(bench, step);
      const { state } = bench;
      const told = history(bench);
      for (const kind of partKinds) {
        const sorted = (plan: Plan) => [...(plan[kind] as Part[])].sort((a, b) => (a.id < b.id ? -1 : 1));
        expect(sorted(state.plan.parts)).toEqual(sorted(told.at(-1)?.after ?? emptyPlan()));
      }
      for (const point of holdPointsOf(state)) {
        if (point.state === 're-opened') reopenedSeen++;
        if (isOpen(point)) continue;
        closedSeen++;
        const proven = told.findLastIndex(
          ({ kind, holdPoints }) => kind === 'evidence-given' && holdPoints.includes(point.id),
        );
        const shaken = told.findLastIndex((entry) => shakes(point.id, entry, state.plan.parts));
        expect({ point: point.id, proven: proven > shaken && proven >= 0 }).toEqual({ point: point.id, proven: true });
        // What was proven is what the plan says now, whatever was taken back in between.
        const given = bench.entries.findIndex(({ id }) => id === told[proven].id);
        const then = journalOf('j1', bench.entries.slice(0, given)).state.plan.parts;
        const differs = shakes(point.id, { before: then, after: state.plan.parts }, state.plan.parts);
        expect({ point: point.id, differs }).toEqual({ point: point.id, differs: false });
      }
    }),
    { numRuns: 120, seed: 20260304 },
  );
  // The law must have had something to say.
  expect(closedSeen).toBeGreaterThan(100);
  expect(reopenedSeen).toBeGreaterThan(50);
});

test('a plan alone closes nothing', () => {
  fc.assert(
    fc.property(fc.array(fc.nat(choices.length - 1), { maxLength: 30 }), (list) => {
      const bench = new Bench().does(openJob);
      for (const part of list) tried(bench, { part });
      expect(holdPointsOf(bench.state).every(isOpen)).toBe(true);
      expect(holdPointsIn(planView(bench.state.plan.parts))).toHaveLength(holdPointsOf(bench.state).length);
    }),
    { numRuns: 40, seed: 20260305 },
  );
});

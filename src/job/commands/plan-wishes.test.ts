import { describe, expect, test } from 'vitest';
import { at, Bench, entry, openJob } from '../../../test/job/given.ts';
import type { partKinds } from '../../plan/plan.ts';
import type { Entry } from '../entries.ts';
import { journalOf } from '../journal.ts';
import { planCheckOf } from '../projections/plan-check.ts';
import type { Command } from './commands.ts';

const set = (part: (typeof partKinds)[number], id: string, value: object = {}): Command => ({
  command: 'setPlanPart',
  part,
  id,
  value: { ...value },
});
const remove = (part: (typeof partKinds)[number], id: string): Command => ({ command: 'removePlanPart', part, id });

function refusal(bench: Bench, wish: Command) {
  const decision = bench.decided(wish);
  return decision.ok ? 'not refused' : decision.issues[0].code;
}

const begun = () => new Bench().does(openJob, set('battery', 'BAT'), set('run', 'R1', { from: 'BAT', lengthM: 5 }));

describe('a part of the plan', () => {
  test('is set, set again, taken out, and brought back by undo', () => {
    const bench = begun().does(set('run', 'R1', { from: 'BAT', lengthM: 6 }));
    expect(bench.state.plan.parts.run).toEqual([{ id: 'R1', from: 'BAT', lengthM: 6 }]);
    expect(bench.state.undoable?.says).toBe('changed run R1');
    bench.does(remove('run', 'R1'));
    expect(bench.state.plan.parts.run).toEqual([]);
    bench.does({ command: 'undo', entry: 'e5' }, { command: 'undo', entry: 'e4' });
    expect(bench.state.plan.parts.run).toEqual([{ id: 'R1', from: 'BAT', lengthM: 5 }]);
    expect(bench.state.plan.conflicts).toEqual([]);
  });

  test('that says nothing new, or cannot be, is refused', () => {
    expect(refusal(begun(), set('run', 'R1', { lengthM: 5, from: 'BAT' }))).toBe('nothing-changes');
    expect(refusal(begun(), set('run', 'R1', { lengthM: -5 }))).toBe('part-invalid');
    expect(refusal(begun(), set('run', 'R1', { constructor: 1 }))).toBe('part-invalid');
    expect(refusal(begun(), set('run', 'BAT', { lengthM: 5 }))).toBe('id-taken');
    expect(refusal(begun(), remove('run', 'R9'))).toBe('nothing-changes');
  });

  test('that cannot be names the part and the field', () => {
    const decision = begun().decided(set('run', 'R1', { lengthM: '5' }));
    expect(decision.ok ? null : decision.issues[0].where).toBe('run R1: lengthM');
  });
});

describe('a template', () => {
  const start = (replace?: boolean): Command => ({
    command: 'startPlanFromTemplate',
    template: 'seven-channel',
    ...(replace === undefined ? {} : { replace }),
  });
  test('starts an empty plan, and one that is begun only if it may replace it', () => {
    const bench = new Bench().does(openJob, start());
    expect(bench.state.plan).toMatchObject({ template: 'seven-channel' });
    expect(bench.state.plan.parts.driver).toHaveLength(7);
    expect(refusal(begun(), start())).toBe('plan-begun');
    const replaced = begun().does(set('fuse', 'F99'), start(true));
    expect(replaced.state.plan.parts.fuse.some(({ id }) => id === 'F99')).toBe(false);
    replaced.does({ command: 'undo', entry: 'e5' });
    expect(replaced.state.plan.parts.fuse).toEqual([{ id: 'F99' }]);
  });
});

describe('a finding', () => {
  const cheap = () => begun().does(set('run', 'R1', { from: 'BAT', material: 'copper-clad-aluminium-10' }));
  const accept = (finding: string, place: string): Command => ({
    command: 'overrideFinding',
    finding,
    place,
    why: 'The owner knows.',
  });
  test('that is no stop can be accepted with a reason, once, and stays in the list', () => {
    const bench = cheap().does(accept('E-16', 'run R1'));
    const found = planCheckOf(bench.state).findings.find(({ id }) => id === 'E-16');
    expect(found?.accepted).toMatchObject({ who: 'Ann', why: 'The owner knows.', entry: 'e5' });
    expect(refusal(bench, accept('E-16', 'run R1'))).toBe('nothing-changes');
  });
  test('that stops cannot, but for closing a cover over what is unproven', () => {
    expect(refusal(cheap(), accept('E-02', 'run R1'))).toBe('finding-stops');
    expect(refusal(cheap(), accept('E-77', 'run R1'))).toBe('finding-unknown');
    const closed = new Bench().does(openJob, set('cover', 'B'), set('holdPoint', 'H1', { behind: ['B'] }));
    closed.does({ command: 'changeCovers', covers: [{ cover: 'B', state: 'fastened' }] });
    expect(planCheckOf(closed.state).stops).toBe(1);
    closed.does(accept('P-01', 'cover B'));
    expect(planCheckOf(closed.state)).toMatchObject({ stops: 0, findings: [{ id: 'P-01' }] });
  });
  test('that was accepted for other numbers is open again, and says which', () => {
    const bench = cheap().does(accept('E-16', 'run R1'));
    bench.does(set('run', 'R1', { from: 'BAT', material: 'aluminium' }));
    const found = planCheckOf(bench.state).findings.find(({ id }) => id === 'E-16');
    expect(found?.accepted?.stale).toContain('material was copper-clad-aluminium-10, now aluminium');
  });
});

describe('a reading', () => {
  const read = () =>
    new Bench().does(
      openJob,
      set('driver', 'D1', { reOhm: 3.4 }),
      set('load', 'N1', { amplifier: 'AMP/1', network: 'D1/1' }),
      set('lead', 'L1', { kind: 'speaker', from: 'AMP/1' }),
      set('reading', 'M1', { of: 'L1', quantity: 'resistance', value: 3.6 }),
    );
  test.each([
    ['lead', 'L1', { kind: 'speaker', from: 'AMP/1', lengthM: 4 }],
    ['load', 'N1', { amplifier: 'AMP/1', network: { s: ['D1/1', 'D1/2'] } }],
    ['driver', 'D1', { reOhm: 3.2 }],
  ] as const)('is marked when the %s that it rests on changes', (part, id, value) => {
    const { plan } = read().does(set(part, id, value)).state;
    expect(plan.stale).toMatchObject([
      { reading: 'M1', part: id, why: `${part} ${id} was changed after it was read.` },
    ]);
  });
  test('stays when only words change, and counts again when it is taken again or the change is undone', () => {
    expect(read().does(set('driver', 'D1', { reOhm: 3.4, note: 'left' })).state.plan.stale).toEqual([]);
    const changed = () => read().does(set('driver', 'D1', { reOhm: 3.2 }));
    const again = changed().does(set('reading', 'M1', { of: 'L1', quantity: 'resistance', value: 3.4 }));
    expect(again.state.plan.stale).toEqual([]);
    expect(changed().does({ command: 'undo', entry: 'e6' }).state.plan.stale).toEqual([]);
  });
});

describe('two devices', () => {
  const change = (id: string, device: string, minutes: number, part: string, value: object): Entry =>
    entry(
      id,
      'plan-changed',
      { changes: [{ change: { part: 'run', id: part, value: { id: part, ...value } } }] },
      { device, when: at(minutes) },
    );
  const opened = entry('o', 'job-created', { name: 'x', purpose: 'car' });
  const state = (...entries: Entry[]) => journalOf('j1', [opened, ...entries]).state.plan;

  test('that change different parts are joined, in whatever order the entries come', () => {
    const a = change('a', 'phone', 1, 'R1', { lengthM: 4 });
    const b = change('b', 'bench', 2, 'R2', { lengthM: 5 });
    expect(state(a, b).parts.run).toEqual([
      { id: 'R1', lengthM: 4 },
      { id: 'R2', lengthM: 5 },
    ]);
    expect(state(b, a)).toEqual(state(a, b));
    expect(state(a, b).conflicts).toEqual([]);
  });
  test('that change the same part: the later holds, the earlier is shown', () => {
    const a = change('a', 'phone', 1, 'R1', { lengthM: 4 });
    const b = change('b', 'bench', 2, 'R1', { lengthM: 5 });
    for (const plan of [state(a, b), state(b, a)]) {
      expect(plan.parts.run).toEqual([{ id: 'R1', lengthM: 5 }]);
      expect(plan.conflicts).toMatchObject([{ entry: 'b', over: { entry: 'a' }, lost: { value: { lengthM: 4 } } }]);
    }
  });
  test('that say the same contradict nobody', () => {
    expect(state(change('a', 'phone', 1, 'R1', {}), change('b', 'bench', 2, 'R1', {})).conflicts).toEqual([]);
  });
});

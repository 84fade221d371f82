import { describe, expect, test } from 'vitest';
import { changed, planChangeSchema, sameValue } from './changes.ts';
import { coilsIn, driversIn, driversInSeries } from './networks.ts';
import { emptyPlan, kindOf, partsOf, planSchema } from './plan.ts';
import { danglingReferences } from './references.ts';

const file = (parts: object) => ({ schema: 'kickpanel.plan/1', ...parts });
const refused = (parts: object) => planSchema.safeParse(file(parts)).success === false;

describe('a plan', () => {
  test('may leave everything out but ids', () => {
    const plan = planSchema.parse(file({ driver: [{ id: 'D1' }], run: [{ id: 'R1' }] }));
    expect(plan.driver).toEqual([{ id: 'D1' }]);
    expect(plan.fuse).toEqual([]);
    expect(kindOf(plan, 'R1')).toBe('run');
    expect(kindOf(plan, 'R2')).toBeNull();
    expect([...partsOf(plan)].map(({ part }) => part.id)).toEqual(['D1', 'R1']);
  });

  test.each([
    ['a negative length', { run: [{ id: 'R1', lengthM: -1 }] }],
    ['a length beyond any car', { run: [{ id: 'R1', lengthM: 1e308 }] }],
    ['a number in quotes', { driver: [{ id: 'D1', reOhm: '3.4' }] }],
    ['a field that is not known', { driver: [{ id: 'D1', ohms: 4 }] }],
    ['an id of signs', { driver: [{ id: '<b>' }] }],
    ['an id that is an object key of the language', { driver: [{ id: '__proto__' }] }],
    ['a note of ten megabytes', { driver: [{ id: 'D1', note: 'x'.repeat(1e7) }] }],
    ['more parts than any car', { driver: Array.from({ length: 5000 }, (_, n) => ({ id: `D${n}` })) }],
    ['two parts of one id', { driver: [{ id: 'D1' }], amplifier: [{ id: 'D1' }] }],
    ['a network five deep', { load: [{ id: 'L', network: { s: [{ p: [{ s: [{ p: [{ s: ['D1/1'] }] }] }] }] } }] }],
  ])('refuses %s', (_, parts) => expect(refused(parts)).toBe(true));
});

describe('a change', () => {
  test('sets a part, sets it again in its place, and takes it out; the plan before stays as it was', () => {
    const first = changed(emptyPlan(), { part: 'driver', id: 'D1', value: { id: 'D1' } });
    const second = changed(first, { part: 'driver', id: 'D2', value: { id: 'D2' } });
    const third = changed(second, { part: 'driver', id: 'D1', value: { id: 'D1', reOhm: 3.4 } });
    expect(third.driver).toEqual([{ id: 'D1', reOhm: 3.4 }, { id: 'D2' }]);
    expect(changed(third, { part: 'driver', id: 'D1', value: null }).driver).toEqual([{ id: 'D2' }]);
    expect(changed(third, { part: 'driver', id: 'D9', value: null })).toBe(third);
    expect(first.driver).toEqual([{ id: 'D1' }]);
  });

  test('must carry a part of its kind under its own id', () => {
    const change = (value: object) => planChangeSchema.safeParse({ part: 'driver', id: 'D1', value }).success;
    expect(change({ id: 'D1' })).toBe(true);
    expect(change({ id: 'D2' })).toBe(false);
    expect(change({ id: 'D1', areaMm2: 4 })).toBe(false);
    expect(planChangeSchema.safeParse({ part: 'wheel', id: 'D1', value: null }).success).toBe(false);
  });

  test('changes nothing when it says the same in another order', () => {
    expect(sameValue({ a: [1, { b: 2 }], c: null }, { c: null, a: [1, { b: 2 }] })).toBe(true);
    expect(sameValue({ a: 1 }, { a: 1, b: undefined })).toBe(false);
    expect(sameValue([1, 2], [2, 1])).toBe(false);
    expect(sameValue([], {})).toBe(false);
  });
});

describe('networks', () => {
  const network = { s: [{ p: ['S1/1', 'S1/2'] }, { p: ['S2/1', 'S2/2'] }] };
  test('name their coils and drivers', () => {
    expect(coilsIn(network)).toEqual(['S1/1', 'S1/2', 'S2/1', 'S2/2']);
    expect(driversIn(network)).toEqual(['S1', 'S2']);
  });
  test('tell which drivers stand in series', () => {
    expect(driversInSeries(network)).toEqual([['S1', 'S2']]);
    expect(driversInSeries({ p: ['S1/1', 'S2/1'] })).toEqual([]);
    expect(driversInSeries({ s: ['S1/1', 'S1/2'] })).toEqual([]);
  });
});

describe('references', () => {
  const plan = (parts: object) => planSchema.parse(file(parts));
  test('that point at something sensible are sound', () => {
    const sound = plan({
      amplifier: [{ id: 'A', channels: [{ id: '1' }] }],
      driver: [{ id: 'D', coils: 2 }],
      load: [{ id: 'L', amplifier: 'A/1', network: { p: ['D/1', 'D/2'] } }],
    });
    expect(danglingReferences(sound)).toEqual([]);
  });
  test.each([
    ['a part that is not there', { fuse: [{ id: 'F', run: 'R9' }] }, 'run'],
    ['a terminal that the part has not', { driver: [{ id: 'D' }], load: [{ id: 'L', network: 'D/2' }] }, 'network'],
    ['a part of the wrong kind', { driver: [{ id: 'D' }], fuse: [{ id: 'F', run: 'D' }] }, 'run'],
  ])('to %s are found', (_, parts, field) => {
    expect(danglingReferences(plan(parts)).map((found) => found.field)).toEqual([field]);
  });
});

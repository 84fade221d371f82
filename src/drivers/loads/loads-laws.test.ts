// Laws that hold over the whole range of the load calculations, and their edges.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Result } from '../../base/result.ts';
import { loadsCalculations } from '../load-calculations.ts';
import { groupSet } from './coil-group-set.ts';
import { type CoilNetwork, networkOhm, networkShares } from './coil-network.ts';
import { wiringFromReading } from './coil-wiring-from-reading.ts';
import { wiringSet } from './coil-wiring-set.ts';
import { loadPower } from './load-power.ts';

function answerOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.issues[0].message);
  return result.value;
}

const code = (result: Result<unknown>) => (result.ok ? 'none' : result.issues[0].code);

function run(name: string, inputs: object) {
  const found = loadsCalculations.find((one) => one.name === name);
  if (found === undefined) throw new Error(name);
  return found.run(inputs);
}

const ohm = fc.double({ min: 0.1, max: 50, noNaN: true });

/** A random network of coils A, B, C, ... */
const networks = fc.array(ohm, { minLength: 1, maxLength: 8 }).chain((ohms) =>
  fc.infiniteStream(fc.nat({ max: 1000 })).map((stream) => {
    const names = ohms.map((_, i) => String.fromCharCode(65 + i));
    const build = (group: string[]): CoilNetwork => {
      if (group.length === 1) return group[0];
      const cut = 1 + (stream.next().value % (group.length - 1));
      const parts = [build(group.slice(0, cut)), build(group.slice(cut))];
      return stream.next().value % 2 === 0 ? { s: parts } : { p: parts };
    };
    return { network: build(names), coils: new Map(names.map((name, i) => [name, ohms[i]])) };
  }),
);

describe('the wirings of a set', () => {
  // The known numbers of resistances that n equal resistors make in series and parallel (OEIS A048211).
  test.each([
    [1, 1],
    [2, 2],
    [3, 4],
    [4, 9],
    [5, 22],
    [6, 53],
    [7, 131],
    [8, 337],
  ])('of %d equal parts have %d values', (parts, count) => {
    const set = answerOf(wiringSet(Array(parts).fill(3.7)));
    expect(set.count).toBe(count);
    expect(set.ohms).toEqual([...set.ohms].sort((a, b) => a - b));
    for (const balanced of set.balanced ?? []) {
      expect(Math.min(...set.ohms.map((value) => Math.abs(value - balanced)))).toBeLessThan(1e-9);
    }
  });

  test('of four unlike parts are all 52, from all parallel to all in series', () => {
    const set = answerOf(wiringSet([1, 2.3, 5.1, 11.7]));
    expect(set.count).toBe(52);
    expect(set.balanced).toBeUndefined();
    expect(set.ohms[0]).toBeCloseTo(1 / (1 + 1 / 2.3 + 1 / 5.1 + 1 / 11.7), 12);
    expect(set.ohms[51]).toBeCloseTo(20.1, 12);
  });

  test('contain every network of the same coils', () => {
    fc.assert(
      fc.property(networks, ({ network, coils }) => {
        fc.pre(coils.size <= 5);
        const value = networkOhm(network, coils);
        const { ohms } = answerOf(wiringSet([...coils.values()]));
        expect(Math.min(...ohms.map((known) => Math.abs(known / value - 1)))).toBeLessThan(1e-9);
      }),
      { numRuns: 50 },
    );
  });

  test('are filtered by the lowest load, which itself is allowed, and end at eight parts', () => {
    expect(answerOf(wiringSet([4, 4], 2)).allowed).toEqual([2, 8]);
    expect(answerOf(wiringSet([4, 4], 2.01)).allowed).toEqual([8]);
    expect(code(run('wiringSet', { coilOhms: Array(9).fill(4) }))).toBe('unsupported');
    expect(code(run('wiringSet', { coilOhms: [4, 0] }))).toBe('out-of-range');
    expect(code(run('wiringSet', { coilOhms: [] }))).toBe('missing');
  });
});

describe('shares of power', () => {
  test('add up to one, and agree with currents found from the nodes', () => {
    fc.assert(
      fc.property(networks, ({ network, coils }) => {
        const { ohm: total, shares } = answerOf(networkShares(network, coils));
        expect(Object.values(shares).reduce((a, b) => a + b)).toBeCloseTo(1, 9);
        // One volt across the whole: each coil's power from its own current, the total 1 / R.
        const power = new Map<string, number>();
        const drive = (part: CoilNetwork, volts: number): void => {
          if (typeof part === 'string') power.set(part, volts ** 2 / (coils.get(part) ?? 0));
          else if ('p' in part) for (const inner of part.p) drive(inner, volts);
          else {
            const current = volts / networkOhm(part, coils);
            for (const inner of part.s) drive(inner, current * networkOhm(inner, coils));
          }
        };
        drive(network, 1);
        for (const [name, watts] of power) expect(shares[name]).toBeCloseTo(watts * (total as number), 9);
      }),
    );
  });

  const share = (network: unknown, coils: object) => run('networkShares', { network, coils });

  test.each([
    [
      'an open network',
      { s: ['A', 'B'] },
      { A: 4, B: 'open' },
      { ohm: 'open', shares: { A: 0, B: 0 }, balanced: false, totalAmpsAtOneVolt: 0 },
    ],
    [
      'a shorted coil in series',
      { s: ['A', 'B'] },
      { A: 4, B: 0 },
      { ohm: 4, shares: { A: 1, B: 0 }, balanced: false },
    ],
    [
      'a short across one of two',
      { s: ['A', { p: ['B', 'C'] }] },
      { A: 4, B: 4, C: 0 },
      { ohm: 4, shares: { A: 1, B: 0, C: 0 } },
    ],
    ['both branches open', { p: ['A', 'B'] }, { A: 'open', B: 'open' }, { ohm: 'open', balanced: false }],
    ['one coil', 'A', { A: 4 }, { ohm: 4, shares: { A: 1 }, balanced: true }],
  ])('%s', (_, network, coils, expected) => {
    expect(answerOf(share(network, coils))).toMatchObject(expected);
  });

  test.each([
    ['a dead short', { p: ['A', 'B'] }, { A: 4, B: 0 }, 'no-solution'],
    ['a coil named twice', { s: ['A', 'A'] }, { A: 4 }, 'contradiction'],
    ['a coil without ohms', { s: ['A', 'B'] }, { A: 4 }, 'missing'],
    ['an empty group', { s: [] }, { A: 4 }, 'missing'],
    ['no network', null, { A: 4 }, 'missing'],
    ['another kind of group', { x: ['A'] }, { A: 4 }, 'unsupported'],
    ['two kinds at once', { s: ['A'], p: ['B'] }, { A: 4, B: 4 }, 'unsupported'],
    ['a number for a coil', { s: [4, 4] }, { A: 4 }, 'unsupported'],
    ['negative ohms', { s: ['A'] }, { A: -4 }, 'out-of-range'],
    ['text for ohms', { s: ['A'] }, { A: '4' }, 'not-a-number'],
  ])('refuses %s', (_, network, coils, expected) => {
    expect(code(share(network, coils))).toBe(expected);
  });
});

test('groups keep every coil busy and lie among all wirings of the coils', () => {
  for (const drivers of [1, 2, 3, 4]) {
    const all = answerOf(wiringSet(Array(drivers * 2).fill(2))).ohms;
    for (const { ohm: value } of groupSet({ drivers, coilsPerDriver: 2, coilOhm: 2 })) {
      expect(Math.min(...all.map((known) => Math.abs(known - value)))).toBeLessThan(1e-9);
    }
  }
  expect(groupSet({ drivers: 1, coilsPerDriver: 2, coilOhm: 4 }).map(({ ohm: value }) => value)).toEqual([2, 8]);
  expect(code(run('groupSet', { drivers: 1.5, coilsPerDriver: 2, coilOhm: 4 }))).toBe('out-of-range');
});

describe('power into a load', () => {
  const ratings = new Map([
    [4, 100],
    [2, 180],
  ]);

  test('never jumps: what lies between listed loads lies between their watts', () => {
    fc.assert(
      fc.property(fc.double({ min: 2, max: 4, noNaN: true }), (load) => {
        const { watt, volt, ampere } = answerOf(loadPower(ratings, load));
        expect(watt).toBeGreaterThanOrEqual(100 - 1e-6);
        expect(watt).toBeLessThanOrEqual(180 + 1e-6);
        expect(volt * ampere).toBeCloseTo(watt, 9);
      }),
    );
  });

  test('below the lowest listed load is limited by current, as far down as the amplifier allows', () => {
    expect(answerOf(loadPower(ratings, 1.5, 1))).toMatchObject({ watt: 135, basis: 'current-limited' });
    expect(code(loadPower(ratings, 1.5))).toBe('out-of-range');
    expect(code(loadPower(ratings, 2))).toBe('none');
  });

  test.each([
    ['loadPower', { ratings: {}, loadOhm: 4 }, 'missing'],
    ['loadPower', { ratings: { four: 100 }, loadOhm: 4 }, 'not-a-number'],
    ['loadPower', { ratings: { 4: '100' }, loadOhm: 4 }, 'not-a-number'],
    ['loadPower', { ratings: { 0: 100 }, loadOhm: 4 }, 'out-of-range'],
    ['loadPower', { ratings: { 4: 100 }, loadOhm: 0 }, 'out-of-range'],
    ['bridgedView', { channelRatings: { 4: 100, 2: 180 }, loadOhm: 3.9 }, 'out-of-range'],
    ['bridgedView', { channelRatings: { 4: 100, 2: 180 }, loadOhm: 2, minChannelOhm: 1 }, 'none'],
  ])('%s of %j gives %s', (name, inputs, expected) => {
    expect(code(run(name, inputs))).toBe(expected);
  });
});

describe('a reading', () => {
  test.each([
    [{ nominalOhm: 4, leadOhm: 0.2 }, [3.2, 3.6, 4]],
    [{ nominalOhm: 2, leadOhm: 0.2 }, [1.7, 1.9, 2.1]],
    [{ nominalOhm: 8, leadOhm: 0.2 }, [6.2, 7, 7.8]],
    [{ network: { p: ['A', 'B'] }, coils: { A: 2, B: 2 }, coilsAre: 'nominal', leadOhm: 0.2 }, [0.95, 1.05, 1.15]],
    [{ network: 'A', coils: { A: 'open' } }, ['open', 'open', 'open']],
  ])('of %j is expected in its window', (inputs, [low, mid, high]) => {
    const near = (value: unknown) => (typeof value === 'number' ? expect.closeTo(value, 9) : value);
    expect(answerOf(run('dcrExpect', inputs))).toEqual({ lowOhm: near(low), midOhm: near(mid), highOhm: near(high) });
  });

  test.each([
    [{}, 'missing'],
    [{ network: 'A' }, 'missing'],
    [{ coils: { A: 4 } }, 'missing'],
    [{ nominalOhm: 4, coils: { A: 4 } }, 'contradiction'],
    [{ nominalOhm: 4, leadOhm: -0.1 }, 'out-of-range'],
    [{ network: 'B', coils: { A: 4 } }, 'missing'],
    [{ network: 'A', coils: { A: 4 }, coilsAre: 'label' }, 'unsupported'],
  ])('is not expected from %j: %s', (inputs, expected) => {
    expect(code(run('dcrExpect', inputs))).toBe(expected);
  });

  test('of a cold coil is 12 % low, of one just played at 100 C 31 % high', () => {
    const re = (readingOhm: number, coilC: number) => answerOf(run('reFromReading', { readingOhm, coilC })).reAt20;
    expect(re(4 * 0.8821, -10)).toBeCloseTo(4, 9);
    expect(re(4 * 1.3144, 100)).toBeCloseTo(4, 9);
    expect(code(run('reFromReading', { readingOhm: 'open' }))).toBe('no-solution');
    expect(code(run('reFromReading', { readingOhm: 0.2, leadOhm: 0.2 }))).toBe('contradiction');
  });

  test('fits hypotheses by distance, equals in the order given, and shorts and breaks only when it is one', () => {
    const coils = new Map([['A', 3.6]]);
    const open = { name: 'open', network: 'A', override: new Map([['A', Number.POSITIVE_INFINITY]]) };
    const one = { name: 'one', network: 'A' };
    const twin = { name: 'twin', network: 'A' };
    const near = { name: 'near', network: 'A', override: new Map([['A', 3.7]]) };
    const read = (readingOhm: number) =>
      wiringFromReading({ readingOhm, leadOhm: 0, coils, hypotheses: [open, near, twin, one] });
    expect(read(3.6)).toMatchObject({ matches: ['twin', 'one', 'near'], verdict: 'ambiguous' });
    expect(read(Number.POSITIVE_INFINITY)).toEqual({ matches: ['open'], scores: [0], verdict: 'unique' });
    expect(read(3.6 + 0.56)).toMatchObject({ matches: ['near', 'twin', 'one'] });
    expect(read(3.7 + 0.571)).toEqual({ matches: [], scores: [], verdict: 'none' });
  });

  test('must come with hypotheses whose coils are known', () => {
    const read = { readingOhm: 3, coils: { A: 3.6 } };
    expect(code(run('wiringFromReading', { ...read, hypotheses: [] }))).toBe('missing');
    expect(code(run('wiringFromReading', { ...read, hypotheses: [{ name: 'b', network: 'B' }] }))).toBe('missing');
    expect(code(run('wiringFromReading', { ...read, hypotheses: [{ name: 'a', network: { p: ['A', 'A'] } }] }))).toBe(
      'contradiction',
    );
  });
});

test('two coils aid above 2.6 and oppose below 1.4', () => {
  const verdict = (pairMh: number) => answerOf(run('coilCheckLf', { oneCoilMh: 1, pairMh })).verdict;
  expect([0, 1.39, 1.4, 2.6, 2.61].map(verdict)).toEqual(['opposing', 'opposing', 'unclear', 'unclear', 'aiding']);
});

test('a coil that is missing is said before a resistance that is wrong', () => {
  expect(code(run('networkShares', { network: { s: ['A', 'B'] }, coils: { A: -4 } }))).toBe('missing');
  const hypotheses = [{ name: 'b', network: 'B' }, 5];
  expect(code(run('wiringFromReading', { readingOhm: 'x', coils: { A: 4 }, hypotheses }))).toBe('missing');
  expect(code(run('dcrExpect', { network: ['A'], coils: { A: 'x' } }))).toBe('not-a-number');
});

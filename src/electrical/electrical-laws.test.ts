// Laws that hold over the whole range of supply, cable and fuse calculations.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Result } from '../base/result.ts';
import { allowedCurrent, type CableCover, cableCovers } from './allowed-current.ts';
import { branchCheck } from './branch-check.ts';
import { electricalCalculations } from './calculations.ts';
import { chooseFuse } from './choose-fuse.ts';
import { type ConductorMaterial, conductorMaterials } from './conductor.ts';
import { fuseFamilies, fuseFamilyNames } from './fuse-families.ts';
import { groundFromDrop } from './ground-from-drop.ts';
import { regulatedSupply } from './regulated-supply.ts';
import { contactOhmDefault, supplyDrop } from './supply-drop.ts';
import { wireArea } from './wire-area.ts';

const positive = (max: number) => fc.double({ min: 0.01, max, noNaN: true });
const material = fc.constantFrom(...(Object.keys(conductorMaterials) as ConductorMaterial[]));

function answerOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.issues[0].message);
  return result.value;
}

const code = (result: Result<unknown>) => (result.ok ? 'none' : result.issues[0].code);

/** A calculation by name on inputs as they come from outside. */
function run(name: string, inputs: object) {
  const found = electricalCalculations.find((one) => one.name === name);
  if (found === undefined) throw new Error(name);
  return found.run(inputs);
}

describe('a fuse', () => {
  test('is never above its cable nor below the design current, and the smallest that is not', () => {
    const amps = fc.oneof(positive(600), fc.integer({ min: 1, max: 600 }));
    fc.assert(
      fc.property(amps, amps, fc.constantFrom(...fuseFamilyNames), (expectedA, allowedA, family) => {
        const chosen = chooseFuse({ expectedA, allowedA, loadFactor: 0.8, family });
        const fits = fuseFamilies[family].filter((a) => a >= (expectedA / 0.8) * 0.999999 && a <= allowedA * 1.000001);
        if (!chosen.ok) {
          expect(fits).toEqual([]);
          return;
        }
        expect(chosen.value.fuseA).toBeLessThanOrEqual(allowedA * (1 + 1e-9));
        expect(chosen.value.fuseA).toBeGreaterThanOrEqual(chosen.value.designA * (1 - 1e-9));
        expect(chosen.value).toMatchObject({ fuseA: Math.min(...fits), largestA: Math.max(...fits) });
      }),
    );
  });

  test('is not one size up for the last binary digit', () => {
    const fuse = chooseFuse({ expectedA: 21, allowedA: 99, loadFactor: 0.7, family: 'blade' });
    expect(answerOf(fuse).fuseA).toBe(30);
  });

  test('is refused by what is really wrong: cable first, then family, then gap', () => {
    const choose = (expectedA: number, allowedA: number) =>
      chooseFuse({ expectedA, allowedA, loadFactor: 1, family: 'blade' });
    expect(code(choose(50, 45))).toBe('no-solution');
    expect(code(choose(41, 45))).toBe('unsupported');
    expect(code(choose(0.5, 0.9))).toBe('unsupported');
    expect(code(choose(31, 34))).toBe('no-solution');
    const other = choose(41, 55);
    expect(other.ok ? '' : other.issues[0].mend).toBe('These do: blade-large, strip-30, flat-link.');
  });
});

describe('the drop of a supply', () => {
  const loop = (areaMm2: number, lengthM: number, metal: ConductorMaterial = 'copper') => {
    const lead = { material: metal, areaMm2, tempC: 20 };
    return { positive: lead, positiveM: lengthM, negative: lead, negativeM: 0.5, contactOhm: contactOhmDefault };
  };

  test('grows with length, current and a thinner or poorer conductor', () => {
    fc.assert(
      fc.property(positive(20), positive(100), positive(120), material, (lengthM, currentA, areaMm2, metal) => {
        const drop = (l: number, i: number, a: number, m: ConductorMaterial) =>
          answerOf(supplyDrop(loop(a, l, m), 1e9, i)).dropV;
        const base = drop(lengthM, currentA, areaMm2, metal);
        expect(drop(lengthM * 1.1, currentA, areaMm2, metal)).toBeGreaterThan(base);
        expect(drop(lengthM, currentA * 1.1, areaMm2, metal)).toBeGreaterThan(base);
        expect(drop(lengthM, currentA, areaMm2 / 1.1, metal)).toBeGreaterThan(base);
        expect(base).toBeGreaterThanOrEqual(drop(lengthM, currentA, areaMm2, 'copper'));
      }),
    );
  });

  test('takes 3 mOhm of joints where nothing else is said, and the positive size for the negative', () => {
    const inputs = { awg: 4, supplyV: 14.4, currentA: 60, positiveM: 5, negativeM: 0.5 };
    const found = answerOf(run('supplyDrop', inputs));
    expect(found).toEqual(
      answerOf(run('supplyDrop', { ...inputs, contactOhm: 0.003, negativeAreaMm2: wireArea({ awg: 4 }).areaMm2 })),
    );
    expect(found.dropV).toBeCloseTo(60 * (0.003 + (0.017241 * 5.5) / 21.1506394), 7);
  });

  test('has no answer once it reaches the supply', () => {
    const lost = { areaMm2: 1, supplyV: 12, currentA: 1, positiveM: 0, negativeM: 0 };
    expect(code(run('supplyDrop', { ...lost, contactOhm: 12 }))).toBe('no-solution');
    expect(code(run('supplyDrop', { ...lost, contactOhm: 11.9 }))).toBe('none');
  });

  test('of a regulated amplifier solves its own circuit, up to half the supply', () => {
    fc.assert(
      fc.property(positive(30), positive(3000), positive(1), (sourceV, inputW, loopOhm) => {
        const found = regulatedSupply({ sourceV, inputW, loopOhm });
        if (!found.ok) {
          expect(4 * loopOhm * inputW).toBeGreaterThan(sourceV * sourceV);
          return;
        }
        expect(found.value.deviceV * found.value.currentA).toBeCloseTo(inputW, 6);
        expect(sourceV - found.value.currentA * loopOhm).toBeCloseTo(found.value.deviceV, 6);
        expect(found.value.deviceV).toBeGreaterThanOrEqual(sourceV / 2);
      }),
    );
    expect(answerOf(regulatedSupply({ sourceV: 12, inputW: 1440, loopOhm: 0.025 })).deviceV).toBe(6);
  });
});

describe('the allowed current', () => {
  const open = { insulationC: 105, ambientC: 40, bundled: 1, cover: 'open' } as const;
  const allowed = (areaMm2: number, place: Partial<Omit<Parameters<typeof allowedCurrent>[1], 'x'>> = {}) =>
    answerOf(allowedCurrent({ material: 'copper', areaMm2 }, { ...open, ...place })).allowedA;

  // Rounded down, as such tables are.
  test.each([
    [0.5, 10],
    [1, 17],
    [2.5, 30],
    [6, 54],
    [16, 103],
    [35, 171],
    [70, 269],
    [120, 381],
  ])('of %d mm2 in still air is %d A', (areaMm2, amps) => {
    expect(Math.floor(allowed(areaMm2))).toBe(amps);
  });

  test('falls with heat, company and cover', () => {
    const covers = Object.keys(cableCovers) as CableCover[];
    expect(covers.map((cover) => allowed(1, { cover }))).toEqual([17, 17 * 0.85, 8.5]);
    const bundles = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 50].map((bundled) => allowed(1, { bundled }) / 17);
    expect(bundles.map((share) => Math.round(share * 100))).toEqual([100, 80, 70, 65, 60, 57, 54, 52, 50, 50, 50]);
    expect(allowed(1, { ambientC: 104.9 })).toBeLessThan(1);
  });

  test('has none where the air is as hot as the insulation stands', () => {
    expect(code(run('allowedCurrent', { areaMm2: 4, ambientC: 105 }))).toBe('no-solution');
    expect(code(run('allowedCurrent', { areaMm2: 4, bundled: 0 }))).toBe('out-of-range');
    expect(code(run('allowedCurrent', { areaMm2: 4, bundled: 1.5 }))).toBe('out-of-range');
  });

  test('is that of the metal that is there', () => {
    const full = answerOf(run('allowedCurrent', { awg: 4 })).allowedA as number;
    const thin = answerOf(run('allowedCurrent', { awg: 4, sizeFactor: 0.9 })).allowedA as number;
    expect(thin / full).toBeCloseTo(0.9 ** 0.65, 10);
  });
});

describe('a size given twice', () => {
  test('passes when both say the same, and is a contradiction when not', () => {
    const ohm = (inputs: object) => run('conductorResistance', { lengthM: 1, ...inputs });
    expect(code(ohm({ awg: 4, areaMm2: 21.15 }))).toBe('none');
    expect(code(ohm({ awg: 4, areaMm2: 20 }))).toBe('contradiction');
    expect(code(ohm({ awg: 41 }))).toBe('out-of-range');
    expect(code(ohm({ awg: -3.5 }))).toBe('out-of-range');
    expect(code(ohm({ areaMm2: 0 }))).toBe('out-of-range');
    expect(code(ohm({ awg: 4, material: 'gold' }))).toBe('unsupported');
    expect(code(ohm({ awg: 4, tempC: 251 }))).toBe('out-of-range');
  });
});

describe('the current of an amplifier', () => {
  const amp = { class: 'AB', ratedW: 300, supplyV: 14.4 };

  test('takes efficiency and idle current of its class where the sheet is silent', () => {
    const found = answerOf(run('ampCurrent', { ...amp, crestDb: 3.0103 }));
    expect(found.sineA).toBeCloseTo(300 / (0.55 * 14.4) + 1.5, 9);
    expect(code(run('ampCurrent', { ...amp, efficiency: 0.981, crestDb: 10 }))).toBe('out-of-range');
    expect(code(run('ampCurrent', { ...amp, crestDb: -1 }))).toBe('out-of-range');
  });

  test('follows the root of the duty in class AB, and the duty itself once it clips', () => {
    const music = (crestDb: number) => answerOf(run('ampCurrent', { ...amp, idleA: 0, crestDb })).musicA as number;
    const full = 300 / (0.55 * 14.4);
    expect(music(13.0103)).toBeCloseTo(full * Math.sqrt(0.1), 9);
    expect(music(0)).toBeCloseTo(full * 10 ** 0.30103, 9);
  });
});

test('a branch is safe behind the main fuse or behind its own, no larger than its cable', () => {
  const branch = { name: 'b', allowedA: 50, expectedA: 40 };
  const ok = (upstreamFuseA: number, fuseA?: number) => branchCheck(upstreamFuseA, [{ ...branch, fuseA }]);
  expect(ok(50).branches[0]).toEqual({ name: 'b', needsOwnFuse: false, ok: true });
  expect(ok(60).branches[0]).toEqual({ name: 'b', needsOwnFuse: true, ok: false });
  expect(ok(60, 50).branches[0].ok).toBe(true);
  expect(ok(60, 51).branches[0].ok).toBe(false);
  expect(ok(50).mainCarries).toBe(true);
  expect(ok(49).mainCarries).toBe(false);
});

test('the verdict on a ground changes just above 1 and 5 mOhm', () => {
  const verdict = (dropV: number) => groundFromDrop({ currentA: 40, dropV }).verdict;
  expect([0, 0.04, 0.0401, 0.2, 0.2001].map(verdict)).toEqual(['good', 'good', 'check', 'check', 'bad']);
});

test('what cannot be said is null, not infinite', () => {
  expect(answerOf(run('speakerCable', { awg: 12, lengthM: 0, loadOhm: 4 })).dampingAtDriver).toBeNull();
  const lead = { sourceOhm: 600, inputOhm: 20000, lengthM: 0, pfPerM: 100 };
  expect(answerOf(run('signalLine', lead))).toMatchObject({ cornerHz: null, extraLossAtFreqDb: 0 });
});

test.each([
  ['capacitorRide', { farad: 1, fromV: 13, toV: 13, loadW: 1, esrOhm: 0 }, 'contradiction'],
  ['alternatorBudget', { alternatorRatedA: 100, idleFraction: 1.1, vehicleA: 1, audioA: 1 }, 'out-of-range'],
  ['batteryTime', { capacityAh: 70, currentA: 0, usableFraction: 0.5 }, 'out-of-range'],
  ['batteryTime', { capacityAh: 70, currentA: 1, usableFraction: 0.5, peukert: 0.9 }, 'out-of-range'],
  ['turnOnLead', { sourceLimitA: 1, supplyV: 12, loadsA: [], areaMm2: 1, lengthM: 1 }, 'missing'],
  ['turnOnLead', { sourceLimitA: 1, supplyV: 12, loadsA: [700], areaMm2: 1, lengthM: 1 }, 'no-solution'],
  ['branchCheck', { upstreamFuseA: 1, branches: [{ name: 'a', allowedA: 1, expectedA: 'x' }] }, 'not-a-number'],
])('%s refuses %j as %s', (name, inputs, expected) => {
  expect(code(run(name, inputs))).toBe(expected);
});

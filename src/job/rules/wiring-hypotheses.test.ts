import { describe, expect, test } from 'vitest';
import { planOf } from '../../../test/plan/rule-cases.ts';
import { findingsOf } from './findings.ts';
import { twoMistakes, wiringHypotheses } from './wiring-hypotheses.ts';

const names = (network: Parameters<typeof wiringHypotheses>[0], blocked: string[] = []) =>
  wiringHypotheses(network, new Set(blocked)).map(({ name }) => name);

describe('what one mistake makes of a wiring', () => {
  test('is each wiring once, however it came about', () => {
    // Two coils side by side: "coil 1 open" is "coil 2 alone".
    expect(names({ p: ['D/1', 'D/2'] })).toEqual([
      'as planned',
      'coil D/1 open',
      'coil D/2 open',
      'all coils in series',
      'a short',
      'a break',
    ]);
  });

  test('of one coil is a short or a break', () => {
    expect(names('D/1')).toEqual(['as planned', 'a short', 'a break']);
  });

  test('of several drivers has each of them joined the other way', () => {
    const two = { s: [{ p: ['A/1', 'A/2'] }, { p: ['B/1', 'B/2'] }] };
    expect(names(two)).toContain('coils of B joined the other way');
  });

  test('knows groups in groups of their own kind as one', () => {
    expect(names({ p: [{ p: ['A/1', 'B/1'] }, 'C/1'] })).not.toContain('all coils side by side');
  });

  test('behind a capacitor leaves out what no meter sees', () => {
    expect(names({ p: ['W/1', 'T/1'] }, ['T/1'])).toEqual(['as planned', 'a short', 'a break']);
  });
});

describe('what two mistakes make of a wiring', () => {
  const two = { p: [{ s: ['A/1', 'A/2'] }, { s: ['B/1', 'B/2'] }] };
  const pairs = (network: Parameters<typeof twoMistakes>[0]) => twoMistakes(network).map(({ name }) => name);

  test('is only what no single one can be', () => {
    expect(pairs(two)).toContain('coils of A joined the other way and coil A/1 open');
    // Both joined the other way is all side by side, which is one.
    expect(pairs(two)).not.toContain('coils of A joined the other way and coils of B joined the other way');
    expect(pairs('A/1')).toEqual([]);
    expect(pairs({ p: ['A/1', 'A/2'] })).toEqual([]);
  });

  test('explains a reading that no single one does', () => {
    const plan = planOf({
      driver: ['A', 'B'].map((id) => ({ id, coils: 2, reOhm: 3.5 })),
      load: [{ id: 'N', amplifier: 'X/1', network: two }],
      lead: [{ id: 'L1', kind: 'speaker', from: 'X/1' }],
      reading: [{ id: 'M', of: 'L1', quantity: 'resistance', value: 2.33 }],
    });
    // 3.5 beside 7 ohm.
    expect(findingsOf(plan).findings.find(({ id }) => id === 'L-09')?.message).toContain(
      'It looks like coils of A joined the other way and coil A/1 open',
    );
  });
});

// Four single coils of 3.6 ohm, two and two in series, side by side: 3.6 ohm, as one of them alone.
const four = (readings: object[]) =>
  planOf({
    driver: ['A', 'B', 'C', 'E'].map((id) => ({ id, reOhm: 3.6 })),
    load: [{ id: 'N', amplifier: 'X/1', network: { p: [{ s: ['A/1', 'B/1'] }, { s: ['C/1', 'E/1'] }] } }],
    lead: [{ id: 'L1', kind: 'speaker', from: 'X/1' }],
    reading: readings.map((reading, n) => ({ id: `M${n}`, of: 'L1', quantity: 'resistance', ...reading })),
  });
const found = (readings: object[]) => findingsOf(four(readings)).findings.find(({ id }) => id === 'L-09');

describe('a reading that fits two wirings', () => {
  test('is not believed', () => {
    expect(found([{ value: 3.7 }])?.message).toContain('It fits as planned, driver A alone');
  });

  test('is, once another with a driver unplugged tells them apart', () => {
    // Without A its string is open, and 7.2 ohm are left.
    expect(found([{ value: 3.7 }, { value: 7.3, without: ['A'] }])).toBeUndefined();
    // The same 3.6 ohm without A: it was never connected.
    expect(found([{ value: 3.7 }, { value: 3.7, without: ['A'] }])?.message).toContain('driver C alone');
  });
});

test('a lead that reads like that of another load is named', () => {
  const plan = planOf({
    driver: [
      { id: 'T', reOhm: 3.4 },
      { id: 'S', reOhm: 1.7 },
    ],
    load: [
      { id: 'N1', name: 'left door', amplifier: 'X/1', network: 'T/1' },
      { id: 'N2', name: 'the sub', amplifier: 'X/2', network: 'S/1' },
    ],
    lead: [{ id: 'L1', kind: 'speaker', from: 'X/1' }],
    reading: [{ id: 'M', of: 'L1', quantity: 'resistance', value: 1.8 }],
  });
  expect(findingsOf(plan).findings.find(({ id }) => id === 'L-09')?.message).toContain(
    'It looks like the lead of the sub.',
  );
});

import { expect, test } from 'vitest';
import { planOf } from '../../../test/plan/rule-cases.ts';
import { fuseChart, fuseRowSchema } from './fuse-chart.ts';

// 10 mm2 of copper at 50 C in the open carry 69.85 A; 500 W at 0.8 and 14.4 V, 1 A idle: 9.68 A in music, 44.4 A at full sine.
const plan = (fuse: object[], run: object = {}) =>
  planOf({
    battery: [{ id: 'BAT' }],
    amplifier: [
      {
        id: 'A',
        name: 'M1',
        class: 'D',
        efficiency: 0.8,
        idleA: 1,
        channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 500 }] }],
      },
    ],
    driver: [{ id: 'D', coilOhm: 4 }],
    load: [{ id: 'N', amplifier: 'A/1', network: 'D/1' }],
    run: [{ id: 'R1', from: 'BAT', to: 'A', areaMm2: 10, material: 'copper', sizeFactor: 1, ...run }],
    fuse: fuse.map((one, n) => ({ id: `F${n}`, run: 'R1', ...one })),
  });

test('a fuse that fits has its cable, its currents and a verdict', () => {
  const [row] = fuseChart(plan([{ ratedA: 60, family: 'strip-30', atM: 0.3, fitted: false }]));
  expect(fuseRowSchema.parse(row)).toEqual(row);
  expect(row).toMatchObject({
    fuse: 'F0',
    ratedA: 60,
    from: 'BAT',
    to: 'M1 (A)',
    cable: 'R1 (10 mm2 copper)',
    verdict: 'holds',
  });
  expect(row.allowedA).toBeCloseTo(69.85, 1);
  expect(row.musicA).toBeCloseTo(9.68, 2);
  expect(row.sineA).toBeCloseTo(44.4, 1);
});

test.each([
  ['larger-than-cable', [{ ratedA: 80 }], 'larger than the cable'],
  ['opens-in-use', [{ ratedA: 7.5 }], 'will open in use'],
  ['cannot-say', [{}], 'Not known: its rating.'],
  ['no-fuse', [], 'No fuse is planned here.'],
] as const)('says %s where it is so', (verdict, fuses, says) => {
  const [row] = fuseChart(plan([...fuses]));
  expect(row.verdict).toBe(verdict);
  expect(row.says).toContain(says);
});

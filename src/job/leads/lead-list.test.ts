import { describe, expect, test } from 'vitest';
import { planOf } from '../../../test/plan/rule-cases.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { leadList, leadRowSchema } from './lead-list.ts';

// Two coils of 3.6 ohm side by side are 1.8 ohm. 5 m of 1.5 mm2, flexible: 2 x 5 x 0.017241 / (0.9 x 1.5) = 0.1277 ohm.
const car = (more: { driver?: object; reading?: object[] } = {}) =>
  planOf({
    amplifier: [{ id: 'A', name: 'Q4', channels: [{ id: '1' }] }],
    place: [{ id: 'P', name: 'Boot, floor', side: 'centre', row: 'boot' }],
    driver: [{ id: 'D', name: 'S10', kind: 'sub', coils: 2, place: 'P', ...(more.driver ?? { reOhm: 3.6 }) }],
    load: [{ id: 'N', amplifier: 'A/1', network: { p: ['D/1', 'D/2'] } }],
    lead: [
      {
        id: 'L1',
        kind: 'speaker',
        from: 'A/1',
        to: 'D',
        colour: 'blue with white',
        areaMm2: 1.5,
        material: 'copper',
        lengthM: 5,
      },
    ],
    reading: (more.reading ?? []).map((reading, n) => ({ id: `M${n}`, of: 'L1', quantity: 'resistance', ...reading })),
  });

describe('the lead list', () => {
  test('says both ends in words, size both ways, and what a meter should read', () => {
    const [row] = leadList(car());
    expect(leadRowSchema.parse(row)).toEqual(row);
    expect(row).toMatchObject({
      from: { terminal: 'A/1', words: 'Q4, channel 1 (A/1)', label: 'A/1 Q4' },
      to: { terminal: 'D', words: 'S10, Boot, floor (D)', label: 'D Boot, floor' },
      colour: 'blue with white',
      lengthM: 5,
      areaMm2: 1.5,
      // 1.5 mm2 lies between 16 (1.31 mm2) and 15 (1.65 mm2), nearer to 15 by ratio.
      gauge: 15,
      verdict: 'not-measured',
      measured: null,
    });
    expect(row.expected?.lowOhm).toBeCloseTo(0.9 * 1.8 + 0.1277, 4);
    expect(row.expected?.highOhm).toBeCloseTo(1.1 * 1.8 + 0.1277, 4);
  });

  test('of a gauge says the area', () => {
    const [row] = leadList(planOf({ lead: [{ id: 'L1', gauge: 12 }] }));
    expect(row.gauge).toBe(12);
    expect(row.areaMm2).toBeCloseTo(3.309, 3);
  });

  test.each([
    [1.95, 'fits', 'As planned.'],
    [3.7, 'differs', 'It looks like coil D/1 open'],
    [0.2, 'differs', 'It looks like a short'],
    ['open', 'differs', 'It looks like a break'],
    [12, 'differs', 'It reads like no single mistake'],
  ] as const)('judges a reading of %s ohm: %s', (value, verdict, says) => {
    const [row] = leadList(car({ reading: [{ value }] }));
    expect(row.verdict).toBe(verdict);
    expect(row.says).toContain(says);
    expect(row.measured).toEqual({ reading: 'M0', ohm: value, probesOhm: null, temperatureC: null });
  });

  test('takes the last reading, with the probes and the temperature of its own', () => {
    const [row] = leadList(car({ reading: [{ value: 'open' }, { value: 2.2, probesOhm: 0.3, temperatureC: -10 }] }));
    // At -10 C copper reads 0.8821 of what it reads at 20.
    expect(row.expected?.midOhm).toBeCloseTo(1.8 * 0.8821 + 0.1277 + 0.3, 4);
    expect(row.verdict).toBe('fits');
  });

  test('believes no reading that rests on what has changed', () => {
    expect(leadList(car({ reading: [{ value: 1.95 }] }), { stale: ['M0'] })[0].verdict).toBe('doubtful');
  });

  test('cannot say without the resistance of the coils, and tells a lead that touches the body', () => {
    const [row] = leadList(
      car({
        driver: { coilOhm: 4 },
        reading: [{ value: 1.9 }, { quantity: 'to-body', value: 99_000 }],
      }),
    );
    expect(row.verdict).toBe('cannot-say');
    expect(row.toBody).toEqual({ reading: 'M1', ohm: 99_000, verdict: 'touches' });
  });

  test('expects a woofer alone behind a passive crossover, its inductor before it', () => {
    const plan = planOf({
      driver: [
        { id: 'W', kind: 'midbass', reOhm: 3.2 },
        { id: 'T', kind: 'tweeter', reOhm: 3.4 },
      ],
      load: [{ id: 'N', amplifier: 'A/1', network: { p: ['W/1', 'T/1'] }, passive: { fHz: 3000 } }],
      lead: [{ id: 'L1', kind: 'speaker', from: 'A/1' }],
      reading: [{ id: 'M', of: 'L1', quantity: 'resistance', value: 3.6 }],
    });
    const [row] = leadList(plan);
    expect(row.expected?.lowOhm).toBeCloseTo(0.9 * 3.2 + 0.1, 9);
    expect(row.expected?.highOhm).toBeCloseTo(1.1 * 3.2 + 0.6, 9);
    expect(row.verdict).toBe('fits');
  });

  test('goes as a person walks: down the left, across the boot, up the right', () => {
    const rows = leadList(templatePlan('seven-channel'));
    expect(rows.map(({ to }) => to?.words)).toEqual([
      'Ottery T25, Pillar, left (D1)',
      'Ottery C100, Kick panel, left (D3)',
      'Ottery W165, Door, left (D5)',
      'Quern S10, Boot (D7)',
      'Ottery T25, Pillar, right (D2)',
      'Ottery C100, Kick panel, right (D4)',
      'Ottery W165, Door, right (D6)',
    ]);
  });

  test('puts leads between devices last, L2 before L10, and knows an end that is not planned', () => {
    const rows = leadList(
      planOf({
        processor: [{ id: 'DSP', inputs: [{ id: 'left' }], outputs: [{ id: '1' }] }],
        lead: [
          { id: 'L10', kind: 'signal', from: 'DSP/1' },
          { id: 'L2', kind: 'turn-on', to: 'DSP/left' },
        ],
      }),
    );
    expect(rows.map(({ id }) => id)).toEqual(['L2', 'L10']);
    expect(rows[0].to?.words).toBe('processor, input left (DSP/left)');
    expect(rows[1]).toMatchObject({ from: { words: 'processor, output 1 (DSP/1)' }, to: null, verdict: 'cannot-say' });
  });
});

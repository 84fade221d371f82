import { expect, test } from 'vitest';
import { findingsOf } from '../../job/rules/findings.ts';
import { changed } from '../../plan/changes.ts';
import { emptyPlan } from '../../plan/plan.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { idsIn, lanesOf, spareOutputs } from './lanes.ts';

const seven = templatePlan('seven-channel');

test('a plan of seven channels has seven lanes in the order of its outputs, from amplifier to driver', () => {
  const lanes = lanesOf(seven, []);
  expect(lanes.map(({ channel }) => channel?.output)).toEqual([1, 2, 3, 4, 5, 6, 7].map((n) => `DSP/${n}`));
  expect(lanes[6]).toMatchObject({ terminal: 'C/1', ohm: 8, watt: 280, plays: { left: true, right: true } });
  expect(lanes[0].plays).toEqual({ left: true, right: false });
  expect(lanes[0].places[0].name).toBe('Pillar, left');
  expect(spareOutputs(seven)).toEqual(['DSP/8']);
});

test('coils side by side put the stop under the lane of the sub, at its amplifier', () => {
  const value = { ...seven.load[6], network: { p: ['D7/1', 'D7/2'] } };
  const plan = changed(seven, { part: 'load', id: 'N7', value });
  const stops = findingsOf(plan).findings.filter(({ severity }) => severity === 'stop');
  const lanes = lanesOf(plan, stops);
  const [[first]] = lanes[6].findings;
  expect(first).toMatchObject({ id: 'L-01', severity: 'stop', values: { loadOhm: 2, minimumOhm: 4 } });
  expect(lanes[6].at).toBe(1);
  expect(lanes.slice(0, 6).every(({ findings }) => findings.length === 0)).toBe(true);
});

test('what is not connected has a lane of its own', () => {
  const plan = { ...emptyPlan(), driver: [{ id: 'D9' }], load: [{ id: 'N2' }] };
  expect(lanesOf(plan, []).map(({ key }) => key)).toEqual(['load N2', 'driver D9']);
});

test('a place names its parts', () => {
  expect(idsIn('channels C1 and C3')).toEqual(['channels', 'C1', 'and', 'C3']);
  expect(idsIn('input DSP/left')).toEqual(['input', 'DSP/left']);
});

test('what is wrong with a left and a right driver is told once, under the later lane', () => {
  const edge = { family: 'linkwitz-riley' as const, order: 4, fHz: 90 };
  const low = ['C3', 'C4'].reduce((plan, id) => {
    const channel = plan.channel.find((known) => known.id === id) ?? { id };
    return changed(plan, { part: 'channel', id, value: { ...channel, highPass: edge } });
  }, seven);
  const found = findingsOf(low).findings.filter(({ id }) => id === 'D-01');
  expect(found.map(({ place }) => place)).toEqual(['driver D3', 'driver D4']);
  const lanes = lanesOf(low, found);
  expect(lanes.map(({ findings }) => findings.length)).toEqual([0, 0, 0, 1, 0, 0, 0]);
  expect(lanes[3].findings[0]).toHaveLength(2);
});

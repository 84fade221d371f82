import { describe, expect, test } from 'vitest';
import { cutStep } from './cut-steps.ts';
import { noisePath } from './noise-path.ts';
import { popStep, whineStep } from './other-steps.ts';
import type { Tried } from './tried.ts';

const step = (tried: Tried) => cutStep('whine', tried);
const suspects = (tried: Tried) =>
  noisePath(tried, null)
    .stages.filter(({ suspect }) => suspect)
    .map(({ stage }) => stage);

describe('the steps of a whine', () => {
  test('halve the chain: source, volume, lead, ground', () => {
    expect(step({}).test).toBe('sourceUnplugged');
    expect(step({ sourceUnplugged: false }).test).toBe('followsVolume');
    const before = { sourceUnplugged: false, followsVolume: true };
    expect(step(before).test).toBe('chargerUnplugged');
    expect(step({ ...before, chargerUnplugged: false }).entry).toBe('charger');
    expect(step({ ...before, chargerUnplugged: true }).test).toBe('antennaUnplugged');
    expect(step({ ...before, chargerUnplugged: true, antennaUnplugged: false }).entry).toBe('antenna');
    expect(step({ ...before, chargerUnplugged: true, antennaUnplugged: true }).entry).toBe('source');
    const between = { sourceUnplugged: false, followsVolume: false };
    expect(step(between).test).toBe('freeLead');
    expect(step({ ...between, freeLead: false }).entry).toBe('ground loop');
    expect(step({ ...between, freeLead: true }).test).toBe('groundDifferenceMv');
    expect(step({ ...between, freeLead: true, groundDifferenceMv: 14 }).entry).toBe('ground loop');
    expect(step({ ...between, freeLead: true, groundDifferenceMv: 2 }).entry).toBe('signal leads');
  });

  test('go on at the amplifier where the source is not to blame', () => {
    expect(step({ sourceUnplugged: true }).test).toBe('amplifierShorted');
    const shorted = { sourceUnplugged: true, amplifierShorted: true };
    expect(step(shorted)).toMatchObject({ test: 'amplifierDropMv', entry: 'amplifier supply or ground' });
    expect(step({ ...shorted, amplifierDropMv: 240 }).entry).toBe('amplifier supply or ground');
    expect(step({ ...shorted, amplifierDropMv: 30 }).entry).toBe('amplifier');
    expect(step({ sourceUnplugged: true, amplifierShorted: false }).entry).toBe('processor');
  });

  test('take the answers in any order', () => {
    expect(step({ amplifierShorted: true }).test).toBe('amplifierDropMv');
    expect(step({ amplifierShorted: false }).test).toBe('sourceUnplugged');
  });

  test('ask again where the answers exclude each other', () => {
    const again = step({ sourceUnplugged: false, amplifierShorted: true });
    expect(again.next).toMatch(/^Repeat the cuts/);
    expect(again.entry).toBe('not known yet');
  });

  test('never say only that a ground is bad: each has its reason, and each repair of power its caution', () => {
    const ended = step({ sourceUnplugged: false, followsVolume: false, freeLead: true, groundDifferenceMv: 14 });
    expect(ended.reason).toMatch(/14 mV/);
    expect(ended.cautions.join(' ')).toMatch(/main fuse out, battery negative off/);
    expect(whineStep(false, { consumersOff: false }).entry).toBe('shared path of a consumer');
  });
});

test('the path keeps as suspects what the cuts leave', () => {
  expect(suspects({})).toEqual(['source', 'signal leads', 'processor', 'amplifier', 'drivers']);
  expect(suspects({ amplifierShorted: false })).toEqual(['source', 'signal leads', 'processor']);
  expect(suspects({ amplifierShorted: false, sourceUnplugged: true })).toEqual(['processor']);
  expect(suspects({ sourceUnplugged: false, followsVolume: true })).toEqual(['source']);
  expect(suspects({ sourceUnplugged: true, followsVolume: true })).toEqual(['processor', 'amplifier', 'drivers']);
  expect(noisePath({ amplifierShorted: false }, 'sourceUnplugged').cuts).toEqual([
    { before: 'processor', test: 'sourceUnplugged', heard: null },
    { before: 'amplifier', test: 'amplifierShorted', heard: 'silent' },
  ]);
  expect(noisePath({ sourceUnplugged: false, amplifierShorted: true }, null).contradiction).toBe(true);
});

test('a pop that plugs in the amplifier silence comes from the order of turning on', () => {
  expect(popStep({}).test).toBe('popAmplifierShorted');
  expect(popStep({ popAmplifierShorted: false }).next).toMatch(/1 to 3 s after/);
  expect(popStep({ popAmplifierShorted: true }).entry).toBe('amplifier');
});

import { describe, expect, test } from 'vitest';
import { checkDatasheet, type Datasheet } from './datasheet.ts';
import { deriveDriver } from './driver.ts';
import { rebuiltSheet, type SheetValue, sheetProposal } from './rebuilt-sheet.ts';

const base = { fsHz: 62, reOhm: 3.3, qms: 5.4, qes: 0.66, sdM2: 0.0137, mmsKg: 0.0142, coil: { leH: 0 } };
const { qts, vasM3, cmsMPerN, blTm, spl1wDb } = deriveDriver(base);

/** All eleven values, each true to the others. */
const sound = {
  fsHz: 62,
  reOhm: 3.3,
  qms: 5.4,
  qes: 0.66,
  qts,
  vasL: 1000 * vasM3,
  sdCm2: 137,
  mmsG: 14.2,
  cmsMmPerN: 1000 * cmsMPerN,
  blTm,
  spl1w1mDb: spl1wDb,
} satisfies Datasheet;

describe('a sheet with one wrong value', () => {
  test('of a full sheet the value is named, and brought back to what it was', () => {
    for (const [value, times] of [
      ['qts', 1.2],
      ['mmsG', 1.2],
      ['reOhm', 1.2],
      ['qms', 1.8],
    ] as const) {
      const wrong = { ...sound, [value]: times * sound[value] };
      const proposal = sheetProposal(wrong);
      expect(proposal?.mends.length).toBe(1);
      const [mend] = proposal?.mends ?? [];
      const broughtBack = { ...wrong, [mend.value]: mend.mended };
      expect(checkDatasheet(broughtBack)?.broken).toEqual([]);
    }
    expect(sheetProposal({ ...sound, qts: 0.7 })).toEqual({
      how: 'one',
      mends: [{ value: 'qts', given: 0.7, mended: Number(qts.toPrecision(4)) }],
    });
    const mass = sheetProposal({ ...sound, mmsG: 18 });
    expect(mass).toMatchObject({ how: 'one', mends: [{ value: 'mmsG', given: 18 }] });
    expect(mass?.mends[0].mended).toBeCloseTo(14.2, 1);
  });

  test('of several that may be it the least trusted is doubted: what follows before what a curve shows', () => {
    const proposal = sheetProposal({ fsHz: 62, mmsG: 14.2, cmsMmPerN: 0.9 });
    expect(proposal).toMatchObject({ how: 'one-of-several', mends: [{ value: 'cmsMmPerN', given: 0.9 }] });
    // 1 / ((2 pi 62)^2 0.0142) = 0.4641 mm/N
    expect(proposal?.mends[0].mended).toBeCloseTo(0.4641, 3);
  });
});

describe('a sheet with several wrong values', () => {
  test('is rebuilt upon what an impedance curve shows', () => {
    const proposal = sheetProposal({ ...sound, blTm: 9, cmsMmPerN: 0.9, qts: 0.8 });
    expect(proposal?.how).toBe('rebuilt');
    const kept = new Set<SheetValue>(['fsHz', 'reOhm', 'qms', 'qes', 'sdCm2']);
    for (const { value } of proposal?.mends ?? []) expect(kept.has(value)).toBe(false);
  });

  test('of mass and air the one is kept that agrees with the force factor, without it with the level', () => {
    expect(rebuiltSheet({ ...sound, vasL: 40 })?.mmsG).toBeCloseTo(14.2, 9);
    expect(rebuiltSheet({ ...sound, mmsG: 25 })?.mmsG).toBeCloseTo(14.2, 9);
    const { blTm: _, ...level } = sound;
    expect(rebuiltSheet({ ...level, mmsG: 25 })?.mmsG).toBeCloseTo(14.2, 9);
  });
});

test('a sound sheet, and one of which too little is known, get no proposal', () => {
  expect(sheetProposal(sound)).toBeNull();
  expect(sheetProposal({ fsHz: 62 })).toBeNull();
  expect(rebuiltSheet({ fsHz: 62, qms: 5 })).toBeNull();
  expect(rebuiltSheet({ fsHz: 62, qms: 5.4, qes: 0.66, sdCm2: 137 })).toBeNull();
});

// A measured driver held against what the plan says of it, in words.
import { totalQ } from '../driver.ts';
import type { MeasuredDriver } from './impedance-reading.ts';

/** What a sheet says of one coil of a driver; what it does not say is absent. All above 0. */
export interface SheetOfDriver {
  reOhm?: number | undefined;
  fsHz?: number | undefined;
  qms?: number | undefined;
  qes?: number | undefined;
  qts?: number | undefined;
}

/** How the coils were joined while it was measured. */
export const measuredJoins = ['one', 'series', 'parallel'] as const;
export type MeasuredJoin = (typeof measuredJoins)[number];

type Key = 'reOhm' | 'fsHz' | 'qms' | 'qes' | 'qts';

export interface ComparedValue {
  value: Key;
  name: string;
  unit: string;
  /** What the sheet gives for the coils as they were joined; null where it says nothing. */
  sheet: number | null;
  measured: number;
  /** Measured against the sheet; null where it says nothing. */
  differsPct: number | null;
  agrees: boolean | null;
}

export interface SheetComparison {
  values: ComparedValue[];
  verdict: 'agrees' | 'differs' | 'nothing-to-compare';
  says: string;
}

/**
 * How far one driver of a make may lie from its sheet, percent: an assumption. Resistance by what a meter is allowed,
 * resonance by what hours of playing soften, the Qs by what both together do.
 */
const spreadPct: Record<Key, number> = { reOhm: 10, fsHz: 15, qms: 35, qes: 20, qts: 20 };
/** Of resonance over total Q, which a softer suspension hardly moves. */
const SAME_IN_A_BOX_PCT = 10;
/** Joins that resistances differ by: two coils in series against one, or against both side by side. */
const JOIN_RATIOS = [0.25, 0.5, 2, 4];

const names: Record<Key, [name: string, unit: string]> = {
  reOhm: ['Resistance of the coil', 'ohm'],
  fsHz: ['Resonance', 'Hz'],
  qms: ['Mechanical Q', ''],
  qes: ['Electrical Q', ''],
  qts: ['Total Q', ''],
};

const ratioOf: Record<MeasuredJoin, (coils: number) => { re: number; qes: number }> = {
  // Of several coils one alone drives with a part of the motor: the losses weigh as many times more.
  one: (coils) => ({ re: 1, qes: coils }),
  series: (coils) => ({ re: coils, qes: 1 }),
  parallel: (coils) => ({ re: 1 / coils, qes: 1 }),
};

/** What a sheet promises for coils joined in this way; what it does not say stays undefined. */
export function promised(sheet: SheetOfDriver, coils: number, joined: MeasuredJoin): SheetOfDriver {
  const { re, qes: weight } = ratioOf[joined](coils);
  const { fsHz, qms } = sheet;
  const reOhm = sheet.reOhm === undefined ? undefined : sheet.reOhm * re;
  const whole = sheet.qes ?? (sheet.qts !== undefined && qms !== undefined ? 1 / (1 / sheet.qts - 1 / qms) : undefined);
  const qes = whole === undefined || !(whole > 0) ? undefined : whole * weight;
  const qts = qes !== undefined && qms !== undefined ? totalQ(qms, qes) : weight === 1 ? sheet.qts : undefined;
  return { reOhm, fsHz, qms, qes, qts };
}

const pct = (value: number) => `${Math.abs(value).toFixed(0)} %`;

/** What the differences mean, the weightiest first. */
function meaning(values: readonly ComparedValue[]): string {
  const by = Object.fromEntries(values.map((one) => [one.value, one])) as Record<Key, ComparedValue>;
  const { reOhm, fsHz, qts } = by;
  const sentences: string[] = [];
  if (reOhm.agrees === false && reOhm.sheet !== null) {
    const ratio = reOhm.measured / reOhm.sheet;
    const join = JOIN_RATIOS.find((one) => Math.abs(ratio / one - 1) < 0.15);
    sentences.push(
      join === undefined
        ? `Its coil reads ${reOhm.measured.toFixed(2)} ohm where the plan says ${reOhm.sheet.toFixed(2)} ohm: leads that were not taken off, or another version of the driver.`
        : `Its coil reads ${reOhm.measured.toFixed(2)} ohm, ${join} times what the plan says: the coils are joined another way, or it is the version with another coil.`,
    );
  }
  const moved = fsHz.agrees === false || qts.agrees === false;
  if (moved && fsHz.differsPct !== null && qts.differsPct !== null) {
    const boxPct = 100 * ((1 + fsHz.differsPct / 100) / (1 + qts.differsPct / 100) - 1);
    const softer = fsHz.differsPct < 0;
    if (Math.sign(fsHz.differsPct) === Math.sign(qts.differsPct) && Math.abs(boxPct) < SAME_IN_A_BOX_PCT) {
      sentences.push(
        `Its suspension is ${softer ? 'softer' : 'stiffer'} than the sheet's (resonance ${pct(fsHz.differsPct)} ${softer ? 'lower' : 'higher'}); in a box it will do nearly the same, since resonance and total Q moved together.`,
      );
      return sentences.join(' ');
    }
  }
  const rest = values.filter(({ value, agrees }) => agrees === false && value !== 'reOhm');
  for (const { name, differsPct } of rest) {
    sentences.push(
      `${name} is ${pct(differsPct ?? 0)} ${(differsPct ?? 0) < 0 ? 'lower' : 'higher'} than the plan says.`,
    );
  }
  if (rest.length > 0) sentences.push('Plan the box with what was measured.');
  return sentences.join(' ');
}

/**
 * Holds what was measured against the sheet in the plan.
 *
 * @param coils  windings of the driver, 1 or more; the sheet's resistance is that of one
 * Source: derivation: Bl and resistance of equal coils in series, side by side, and alone; spreads are assumptions.
 */
export function againstSheet(
  measured: MeasuredDriver,
  sheet: SheetOfDriver,
  coils: number,
  joined: MeasuredJoin,
): SheetComparison {
  const said = promised(sheet, coils, joined);
  const values = (Object.keys(names) as Key[]).map((value): ComparedValue => {
    const [name, unit] = names[value];
    const given = said[value];
    if (given === undefined) {
      return { value, name, unit, sheet: null, measured: measured[value], differsPct: null, agrees: null };
    }
    const differsPct = 100 * (measured[value] / given - 1);
    const agrees = Math.abs(differsPct) <= spreadPct[value];
    return { value, name, unit, sheet: given, measured: measured[value], differsPct, agrees };
  });
  if (values.every(({ sheet: given }) => given === null)) {
    return { values, verdict: 'nothing-to-compare', says: 'The plan says nothing of it yet that could be compared.' };
  }
  if (values.every(({ agrees }) => agrees !== false)) {
    return {
      values,
      verdict: 'agrees',
      says: 'It is the driver that the plan says, as far as one of a make is like another.',
    };
  }
  return { values, verdict: 'differs', says: meaning(values) };
}

/** The measured values as the sheet of one coil would write them, with both Qs as with every coil driven. */
export function asSheet(measured: MeasuredDriver, coils: number, joined: MeasuredJoin): Record<Key, number> {
  const { re, qes: weight } = ratioOf[joined](coils);
  const qes = measured.qes / weight;
  const { fsHz, qms } = measured;
  return { reOhm: measured.reOhm / re, fsHz, qms, qes, qts: totalQ(qms, qes) };
}

// What is typed as evidence for one hold point, and the evidence that it makes.
import {
  type Evidence,
  type EvidenceHow,
  type EvidenceUnit,
  type Expected,
  isWithin,
  plainValue,
} from '../../job/hold-points/evidence-forms.ts';
import type { HoldPoint } from '../../job/hold-points/hold-points.ts';
import { quantities, typedNumber } from '../part-editor/quantity.ts';

export interface EvidenceDraft {
  how: EvidenceHow;
  value: string;
  unit: EvidenceUnit;
  /** Drivers that were unplugged. */
  without: string[];
  take: string;
  photo: string;
  name: string;
  words: string;
}

const families: Record<'V' | 'A' | 'ohm', EvidenceUnit[]> = {
  V: ['V', 'mV'],
  A: ['A'],
  ohm: ['ohm', 'mOhm', 'kOhm', 'MOhm'],
};

/** How a unit is written beside a number. */
export const unitWords: Record<EvidenceUnit, string> = {
  V: 'V',
  mV: 'mV',
  A: 'A',
  ohm: 'ohm',
  mOhm: 'mOhm',
  kOhm: 'kohm',
  MOhm: 'Mohm',
};

/** Units that a meter may show for a point. */
export function unitsOf({ expected, kind }: Pick<HoldPoint, 'expected' | 'kind'>): EvidenceUnit[] {
  if (expected !== null) return families[expected.unit];
  if (kind === 'fuse-fitted') return families.A;
  return kind === 'coils-read' ? families.ohm : families.V;
}

/** The unit that a meter most likely shows: what is expected then has no more than three places before or after the point. */
export function likelyUnit(point: Pick<HoldPoint, 'expected' | 'kind'>): EvidenceUnit {
  const { expected } = point;
  const [plain] = unitsOf(point);
  if (expected?.unit !== 'ohm') return plain;
  if (expected.high !== 'open' && expected.high < 0.1) return 'mOhm';
  return expected.low !== 'open' && expected.low >= 1000 ? 'kOhm' : 'ohm';
}

/** A value as a meter shows it, with point or comma; "open" where nothing flows. */
export function typedAmount(text: string, unit: EvidenceUnit): number | 'open' | null {
  if (/^\s*(open|ol|o\.l\.?)\s*$/i.test(text)) return families.ohm.includes(unit) ? 'open' : null;
  const value = typedNumber(text, quantities.number);
  return value === null || value < 0 || value > 1e9 ? null : value;
}

/** What a typed value comes to against what is expected; null where nothing can be said yet. */
export function typedVerdict(
  { value, unit }: Pick<EvidenceDraft, 'value' | 'unit'>,
  expected: Expected | null,
): 'within' | 'outside' | null {
  const amount = typedAmount(value, unit);
  if (amount === null || expected === null) return null;
  const plain = plainValue({ value: amount, unit });
  if (plain.unit !== expected.unit) return null;
  return isWithin(plain.value, expected) ? 'within' : 'outside';
}

/** The evidence that a draft gives, or what is missing in it. */
export function evidenceFrom(
  draft: EvidenceDraft,
): { evidence: Evidence } | { wrong: keyof EvidenceDraft; says: string } {
  const words = draft.words.trim() === '' ? {} : { words: draft.words.trim() };
  switch (draft.how) {
    case 'measured': {
      const value = typedAmount(draft.value, draft.unit);
      if (value === null) {
        const open = families.ohm.includes(draft.unit) ? ', or "open"' : '';
        return { wrong: 'value', says: `A number as the meter shows it, such as 3.4 or 3,4${open}.` };
      }
      const without = draft.without.length === 0 ? {} : { without: draft.without };
      return { evidence: { how: 'measured', value, unit: draft.unit, ...without } };
    }
    case 'take':
      if (draft.take === '') return { wrong: 'take', says: 'Choose the take that shows it.' };
      return { evidence: { how: 'take', take: draft.take, ...words } };
    case 'photo':
      if (draft.photo === '') return { wrong: 'photo', says: 'Choose the photo that shows it.' };
      return { evidence: { how: 'photo', photo: draft.photo, ...words } };
    case 'seen': {
      const name = draft.name.trim();
      if (name === '') return { wrong: 'name', says: 'Give the name of whoever saw it.' };
      return { evidence: { how: 'seen', name, ...words } };
    }
  }
}

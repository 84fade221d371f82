// What is typed as evidence becomes a value with its unit, or says what is missing.
import { describe, expect, test } from 'vitest';
import type { Expected } from '../../job/hold-points/evidence-forms.ts';
import { type EvidenceDraft, evidenceFrom, likelyUnit, typedAmount, typedVerdict } from './evidence-draft.ts';

const coils: Expected = { low: 2.88, high: 3.52, target: 3.2, unit: 'ohm' };
const draft: EvidenceDraft = {
  how: 'measured',
  value: '',
  unit: 'ohm',
  without: [],
  take: '',
  photo: '',
  name: '',
  words: '',
};

describe('a typed value', () => {
  test('is read with a comma as with a point', () => {
    expect(typedAmount('3,4', 'ohm')).toBe(3.4);
    expect(typedAmount(' 3.4 ', 'ohm')).toBe(3.4);
  });

  test('is open where a meter of ohms shows so, and is no number of volts', () => {
    expect(typedAmount('OL', 'kOhm')).toBe('open');
    expect(typedAmount('open', 'V')).toBeNull();
    expect(typedAmount('-1', 'ohm')).toBeNull();
    expect(typedAmount('much', 'ohm')).toBeNull();
  });

  test('is held against what is expected in its own unit', () => {
    expect(typedVerdict({ value: '3200', unit: 'mOhm' }, coils)).toBe('within');
    expect(typedVerdict({ value: '1,6', unit: 'ohm' }, coils)).toBe('outside');
    expect(typedVerdict({ value: '3.2', unit: 'V' }, coils)).toBeNull();
    expect(typedVerdict({ value: '', unit: 'ohm' }, coils)).toBeNull();
    expect(typedVerdict({ value: 'open', unit: 'ohm' }, { ...coils, low: 100_000, high: 'open' })).toBe('within');
  });
});

test('the unit at hand is the one that the meter shows', () => {
  expect(likelyUnit({ kind: 'coils-read', expected: coils })).toBe('ohm');
  expect(likelyUnit({ kind: 'ground-holds', expected: { low: 0, high: 0.005, target: 0, unit: 'ohm' } })).toBe('mOhm');
  expect(likelyUnit({ kind: 'run-laid', expected: { low: 1e5, high: 'open', target: 'open', unit: 'ohm' } })).toBe(
    'kOhm',
  );
  expect(likelyUnit({ kind: 'fuse-fitted', expected: null })).toBe('A');
  expect(likelyUnit({ kind: 'gain-set', expected: null })).toBe('V');
});

describe('evidence', () => {
  test('of a meter, of a take, of a person', () => {
    expect(evidenceFrom({ ...draft, value: '3,4', without: ['D1'] })).toEqual({
      evidence: { how: 'measured', value: 3.4, unit: 'ohm', without: ['D1'] },
    });
    expect(evidenceFrom({ ...draft, how: 'take', take: 't1', words: ' near it ' })).toEqual({
      evidence: { how: 'take', take: 't1', words: 'near it' },
    });
    expect(evidenceFrom({ ...draft, how: 'seen', name: ' Ann ' })).toEqual({ evidence: { how: 'seen', name: 'Ann' } });
  });

  test('says what is missing', () => {
    expect(evidenceFrom(draft)).toMatchObject({ wrong: 'value' });
    expect(evidenceFrom({ ...draft, how: 'take' })).toMatchObject({ wrong: 'take' });
    expect(evidenceFrom({ ...draft, how: 'seen', name: ' ' })).toMatchObject({ wrong: 'name' });
  });
});

import { describe, expect, test } from 'vitest';
import type { Finding } from './checks/take-context.ts';
import { forbids, problemFrom, type Result, severityOf } from './permissions.ts';
import { type ProblemCode, problemCodes, type Severity } from './problems.ts';

const found = (code: ProblemCode, severity?: Severity): Finding => ({
  code,
  message: 'a message',
  mend: 'a way to mend it',
  ...(severity ? { severity } : {}),
});
const RESULTS: Result[] = ['response', 'arrival', 'polarity', 'distortion', 'level'];

/** What each problem forbids altogether, and what becomes of a sweep track with it. */
const RULES: [ProblemCode, Result[], Severity][] = [
  ['clipped-digital', ['distortion', 'level'], 'limit'],
  ['clipped-analogue', ['distortion', 'level'], 'limit'],
  ['agc', ['distortion', 'level'], 'limit'],
  ['gated', RESULTS, 'stop'],
  ['gap', ['response', 'arrival', 'polarity', 'distortion'], 'stop'],
  ['zero-fill', ['response', 'arrival', 'polarity', 'distortion'], 'stop'],
  ['rate-mismatch', [], 'note'],
  ['clock-drift', [], 'note'],
  ['low-snr', ['arrival', 'polarity'], 'limit'],
  ['noise-changed', [], 'note'],
  ['band-limited', [], 'limit'],
  ['side-mixed', ['response', 'arrival', 'polarity', 'distortion'], 'stop'],
  ['truncated', RESULTS, 'stop'],
  ['wrong-track', RESULTS, 'stop'],
  ['no-markers', ['arrival'], 'limit'],
  ['silent', RESULTS, 'stop'],
];

describe('each problem', () => {
  test('has a rule here', () => {
    expect(RULES.map(([code]) => code).sort()).toEqual([...problemCodes].sort());
  });

  test.each(RULES)('%s forbids what it must and nothing else', (code, forbidden) => {
    const findings = [found(code)];
    expect(RESULTS.filter((result) => forbids(findings, result) !== null)).toEqual(forbidden);
  });

  test.each(RULES)('%s is as bad for a sweep as it leaves of one', (code, _, severity) => {
    expect(severityOf(found(code), 'sweep')).toBe(severity);
  });
});

describe('how bad a problem is', () => {
  test('depends on what the track is for', () => {
    // Clipping takes distortion and levels: all there is to a rising-level or a noise track.
    expect(severityOf(found('clipped-digital'), 'steps')).toBe('stop');
    expect(severityOf(found('clipped-digital'), 'noise')).toBe('stop');
    expect(severityOf(found('clipped-digital'), 'polarity')).toBe('limit');
    expect(severityOf(found('no-markers'), 'pair')).toBe('stop');
    expect(severityOf(found('gap'), 'noise')).toBe('limit');
    expect(severityOf(found('gap'), 'near')).toBe('stop');
  });

  test('for a kind of track nobody knows is judged by all results', () => {
    expect(severityOf(found('gap'), 'something new')).toBe('limit');
    expect(severityOf(found('gated'), 'something new')).toBe('stop');
    expect(severityOf(found('rate-mismatch'), 'something new')).toBe('note');
  });

  test('is what the finding says where it knows better', () => {
    expect(severityOf(found('low-snr', 'stop'), 'sweep')).toBe('stop');
    expect(problemFrom(found('low-snr', 'stop'), 'sweep')).toEqual(found('low-snr', 'stop'));
  });
});

test('a clock that runs unsteadily forbids arrivals, one that is merely fast does not', () => {
  expect(forbids([found('clock-drift')], 'arrival')).toBeNull();
  expect(forbids([found('clock-drift', 'limit')], 'arrival')?.code).toBe('clock-drift');
  expect(forbids([found('clock-drift', 'limit')], 'response')).toBeNull();
});

test('the first of several findings that forbids a result is the one that is named', () => {
  const findings = [found('noise-changed'), found('agc'), found('gap')];
  expect(forbids(findings, 'distortion')?.code).toBe('agc');
  expect(forbids(findings, 'arrival')?.code).toBe('gap');
  expect(forbids([], 'arrival')).toBeNull();
});

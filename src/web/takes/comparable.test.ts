import { describe, expect, test } from 'vitest';
import { comparable } from './comparable.ts';

type Take = Parameters<typeof comparable>[0];

const take = (more: Partial<Take> = {}): Take => ({
  entry: 'e',
  when: '2026-11-12T09:00:00.000Z',
  who: 'J. T.',
  take: 't',
  name: 'Right door',
  recording: 'a',
  bytes: 1,
  track: 'track-1',
  place: 'Right door',
  covers: [{ cover: 'A', state: 'fastened' }],
  level: { reference: 'full-scale' },
  input: { label: 'M-1' },
  kept: true,
  notes: [],
  ...more,
});

describe('two takes', () => {
  test('of the same track, place and covers may be compared', () => {
    const { may, common } = comparable(take(), take());
    expect(may).toBe(true);
    expect(common.map(({ severity }) => severity)).toEqual(['ok', 'ok', 'ok', 'ok', 'ok']);
  });

  test.each([
    ['another track', { track: 'track-2' }],
    ['another place', { place: 'Left door' }],
    ['other covers', { covers: [{ cover: 'A', state: 'off' as const }] }],
    ['one calibrated, one not', { level: { reference: 'spl' as const, fullScaleSplDb: 120 } }],
  ])('are told apart by %s', (text, more) => {
    const { may, why } = comparable(take(), take(more));
    expect(may).toBe(false);
    expect(why).toContain(text);
  });

  test('from another recorder may be compared, and it is said', () => {
    const { may, common } = comparable(take(), take({ input: { label: 'M-2' } }));
    expect(may).toBe(true);
    expect(common.at(-1)).toEqual({ severity: 'note', text: 'other recorder' });
  });
});

import { expect, test } from 'vitest';
import { soundFor } from './walk-tests.ts';

test('a tweeter, a door and a channel without edges get sound that a tweeter bears', () => {
  expect(soundFor({ highPassHz: 3500 })).toEqual({ fromHz: 3500, toHz: 8000, levelDbfs: -30, safeForTweeter: true });
  expect(soundFor({})).toMatchObject({ fromHz: 2000, safeForTweeter: true });
});

test('a sub gets its own band, 10 dB less, and says that it is not for a tweeter', () => {
  expect(soundFor({ lowPassHz: 80 })).toEqual({ fromHz: 30, toHz: 80, levelDbfs: -40, safeForTweeter: false });
});

test('a band is an octave at least, whatever the edges say', () => {
  for (const edges of [{ highPassHz: 3000, lowPassHz: 3000 }, { lowPassHz: 20 }, { highPassHz: 9000 }]) {
    const { fromHz, toHz } = soundFor(edges);
    expect(toHz / fromHz).toBeGreaterThanOrEqual(2);
  }
});

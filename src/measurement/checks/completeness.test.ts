import { expect, test } from 'vitest';
import { wrongTrack } from './completeness.ts';
import type { TakeContext } from './take-context.ts';

/** A take of a track with code 0 in whose recording these groups of three chirps were heard. */
const heard = (coded: { code: number; score: number; timeS: number }[]) =>
  ({
    located: {
      markers: [0, 0.15, 0.3].map((timeS) => ({ group: 0, timeS })),
      coded,
      match: { displaced: [] },
    },
  }) as unknown as TakeContext;

test('another code is believed where it is spelled twice, or once and loudly', () => {
  const twice = [
    { code: 22, score: 0.8, timeS: 1 },
    { code: 22, score: 0.8, timeS: 9 },
  ];
  expect(wrongTrack(heard(twice))).toMatchObject({ values: { codeFound: 22, codeExpected: 0 } });
  expect(wrongTrack(heard([{ code: 22, score: 1.5, timeS: 1 }]))).toMatchObject({ code: 'wrong-track' });
});

test('three faint chirps that lie at a code’s gaps by chance spell nothing, nor do two that spell different codes', () => {
  expect(wrongTrack(heard([{ code: 22, score: 0.8, timeS: 1 }]))).toBeNull();
  expect(
    wrongTrack(
      heard([
        { code: 22, score: 0.8, timeS: 1 },
        { code: 31, score: 0.8, timeS: 9 },
      ]),
    ),
  ).toBeNull();
});

test('a track whose own code was heard is that track, whatever else was', () => {
  expect(
    wrongTrack(
      heard([
        { code: 22, score: 2, timeS: 1 },
        { code: 0, score: 0.8, timeS: 9 },
      ]),
    ),
  ).toBeNull();
});

import { describe, expect, test } from 'vitest';
import {
  designedTake,
  firstLevelDbfs,
  rangeFor,
  sideFor,
  type TakeWish,
  takeKinds,
  trackRequest,
  trackWords,
} from './take-wish.ts';

const wish: TakeWish = { kind: 'sweep', side: 'left', range: 'middle', levelDbfs: -30, place: 'Left door' };

describe('what a place suggests', () => {
  test.each([
    ['Left door', 'middle', 'left'],
    ['Dash top, right', 'high', 'right'],
    ['Under the load floor', 'low', 'both'],
    ['Rear door, left', 'middle', 'left'],
    ['All together', 'whole', 'both'],
    ['Bright corner', 'whole', 'both'],
  ])('%s: %s, %s', (place, range, side) => {
    expect([rangeFor(place), sideFor(place)]).toEqual([range, side]);
  });

  test('a place that nobody has heard starts at -30 dBFS', () => {
    expect([firstLevelDbfs(false), firstLevelDbfs(true)]).toEqual([-30, -20]);
  });
});

describe('the track that follows', () => {
  test.each(takeKinds.map(({ value }) => value))('%s can be made and never exceeds its level', (kind) => {
    const designed = designedTake({ ...wish, kind });
    if (!designed.ok) throw new Error(designed.issues[0].message);
    const levels = designed.value.track.segments.flatMap((segment) => {
      const { levelDbfs } = segment as { levelDbfs?: number };
      return levelDbfs === undefined ? [] : [levelDbfs];
    });
    expect(Math.max(...levels)).toBeLessThanOrEqual(-30);
  });

  test('warns of tweeters when it plays low', () => {
    const designed = designedTake({ ...wish, range: 'whole' });
    expect(designed.ok && designed.value.cautions.join(' ')).toContain('bare tweeter');
  });

  test('plays one side only, and says so', () => {
    const designed = designedTake(wish);
    if (!designed.ok) throw new Error('it can be made');
    expect(trackWords(designed.value.track)).toBe('sweep, left');
    expect(trackRequest(wish)).toMatchObject({ fromHz: 40, toHz: 8000, side: 'left' });
    expect(trackRequest({ ...wish, kind: 'pair' })).not.toHaveProperty('side');
  });
});

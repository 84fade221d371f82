import { describe, expect, test } from 'vitest';
import { addressOf, type Route, routeOf } from './route.ts';

const at = (address: string) => {
  const [pathname, search] = address.split('?');
  return routeOf({ pathname, search: search === undefined ? '' : `?${search}` });
};

describe('an address', () => {
  const routes: Route[] = [
    { page: 'bench' },
    { page: 'new-job' },
    { page: 'job', job: 'a-1' },
    { page: 'take', job: 'a-1', place: null },
    { page: 'take', job: 'a-1', place: 'Left door, low' },
    { page: 'take', job: 'a-1', place: 'Left door', near: true },
    { page: 'takes', job: 'a-1', compare: [] },
    { page: 'takes', job: 'a-1', compare: ['t1', 't2'] },
    { page: 'reading', job: 'a-1', take: 't1' },
    { page: 'live', job: null },
    { page: 'live', job: 'a-1' },
    { page: 'plan', job: 'a-1', part: null },
    { page: 'plan', job: 'a-1', part: 'C1' },
    { page: 'loom', job: 'a-1', lead: null },
    { page: 'loom', job: 'a-1', lead: 'L14' },
    { page: 'coils', job: 'a-1', load: 'N7' },
    { page: 'driver', job: 'a-1', driver: 'D3' },
    { page: 'box', job: 'a-1', driver: null },
    { page: 'vehicles', job: null },
    { page: 'vehicles', job: 'a-1' },
    { page: 'hold-points', job: 'a-1', cover: null },
    { page: 'hold-points', job: 'a-1', cover: 'door-left' },
    { page: 'first-sound', job: 'a-1' },
    { page: 'near-walk', job: 'a-1' },
    { page: 'gains', job: 'a-1' },
    { page: 'noise-hunt', job: 'a-1' },
    { page: 'microphones' },
    { page: 'settings' },
  ];

  test.each(routes)('and its screen lead to each other: $page', (route) => {
    expect(at(addressOf(route))).toEqual(route);
  });

  test.each(['/nothing', '/jobs', '/jobs/a/other', '/jobs/a/takes/b/c', '/new/x'])(
    '%s is said to be unknown',
    (path) => {
      expect(at(path)).toEqual({ page: 'unknown', path });
    },
  );

  test('with a stray percent sign is still read', () => {
    expect(at('/jobs/100%')).toEqual({ page: 'job', job: '100%' });
  });
});

import { beforeEach, expect, test, vi } from 'vitest';
import type { JobView } from '../api-client.ts';
import { knownHead, rememberHead } from './known-heads.ts';

let kept: Map<string, string>;
beforeEach(() => {
  kept = new Map();
  vi.stubGlobal('localStorage', {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, value: string) => kept.set(name, value),
  });
});

const view = (id: string, number?: string) =>
  ({
    job: { id, name: 'Card', vehicle: { name: `Van ${id}` }, ...(number === undefined ? {} : { number }) },
    personal: { owner: { value: 'Somebody' } },
  }) as unknown as JobView;

test('a job that was shown is known by number and vehicle, and its owner is not written down', () => {
  expect(knownHead('a')).toBeNull();
  rememberHead(view('a', '0412'));
  rememberHead(view('b'));
  expect(knownHead('a')).toEqual({ number: '0412', vehicle: 'Van a' });
  expect(knownHead('b')).toEqual({ number: null, vehicle: 'Van b' });
  expect([...kept.values()].join()).not.toContain('Somebody');
});

test('the jobs shown last are kept, and what cannot be read is as if nothing was kept', () => {
  for (let n = 0; n < 70; n++) rememberHead(view(`job ${n}`));
  rememberHead(view('job 12'));
  expect(knownHead('job 9')).toBeNull();
  expect(knownHead('job 69')).not.toBeNull();
  rememberHead(view('new'));
  expect(knownHead('job 10')).toBeNull();
  kept.set('kickpanel.heads', 'broken');
  expect(knownHead('job 69')).toBeNull();
});

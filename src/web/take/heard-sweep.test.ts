import { expect, test } from 'vitest';
import { heardSweep } from './heard-sweep.ts';

const fHz = [100, 200, 400, 800];

test('the sweep is where a band rises most out of its own quiet', () => {
  const heard = heardSweep();
  expect(heard.feed([-60, -70, -80, -140], fHz)).toBeNull();
  expect(heard.feed([-60, -70, -78, -90], fHz)).toBeNull();
  expect(heard.feed([-60, -40, -79, -88], fHz)).toBe(200);
  expect(heard.feed([-59, -68, -50, -60], fHz)).toBe(400);
  expect(heard.feed([-59, -69, -79, -60], fHz)).toBe(800);
});

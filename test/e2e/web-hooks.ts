// What every file of browser tests begins and ends with.
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { closeShop, openBrowser, openShop, type Shop } from './web-page.ts';

interface There {
  shop: Shop;
  browser: Browser;
}

/** A shop and a browser for all tests of a file, there from its first test on and closed after its last. */
export function openedForAll(): There {
  const there = {} as There;
  beforeAll(async () => {
    there.shop = await openShop();
    there.browser = await openBrowser();
  }, 120_000);
  afterAll(async () => {
    await there.browser?.close();
    await closeShop(there.shop);
  });
  return there;
}

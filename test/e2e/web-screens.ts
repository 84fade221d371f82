// Looks at screens as they stand: at every size and in both themes, by the layout's rules and by those of screen readers.
import AxeBuilder from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { openBench, type Shop } from './web-page.ts';

export interface ScreenToSee {
  name: string;
  path: string;
  /** What is there once the screen shows all that it has. */
  shows: string;
  /** Names of buttons to press first, one after the other. */
  press?: RegExp[];
}

/** A desk, a small laptop, a phone in the hand; axe looks at the largest and at the smallest. */
const sizes = [
  { width: 1280, height: 800, axe: true, fingers: false },
  { width: 1024, height: 768, axe: false, fingers: false },
  { width: 390, height: 844, axe: true, fingers: true },
];

/** Comes back once the page is drawn in its own type. */
export const drawn = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    await document.fonts.ready;
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  });

/** What is wrong with the layout: side scroll, small text, words out of their frame, targets that fingers cannot hit. */
async function layoutFaults(page: Page, touch: boolean): Promise<string[]> {
  return page.evaluate((fingers) => {
    const faults: string[] = [];
    const named = (element: Element) =>
      `${element.tagName.toLowerCase()}.${element.getAttribute('class') ?? ''} "${(element.textContent ?? '').trim().slice(0, 24)}"`;
    if (document.documentElement.scrollWidth > innerWidth)
      faults.push(`the page is ${document.documentElement.scrollWidth} px wide`);
    for (const element of document.querySelectorAll('body *')) {
      if (element.closest('.unseen, svg, script, title')) continue;
      const box = element.getBoundingClientRect();
      if (box.width < 1 || box.height < 1) continue;
      const style = getComputedStyle(element);
      const size = Number.parseFloat(style.fontSize);
      const ownText = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
      if (ownText && size < 12.9) faults.push(`${named(element)} is ${size} px`);
      // Words that stand out of their frame; what is cut with three points on purpose says so in its style.
      const framed = element.matches('button, label, legend, h1, h2, p, dt, dd, th, td') && element.clientWidth > 0;
      if (framed && element.scrollWidth > element.clientWidth + 1 && style.overflowX === 'visible')
        faults.push(`${named(element)} needs ${element.scrollWidth} of its ${element.clientWidth} px`);
    }
    if (!fingers) return faults;
    for (const element of document.querySelectorAll('button, a, input, select, textarea, summary, [role=slider]')) {
      if (element.closest('.unseen, dialog:not([open]), .skip') || element.matches('.unseen, .skip')) continue;
      const target = element.closest('label') ?? element;
      const box = target.getBoundingClientRect();
      if (box.width === 0) continue;
      if (box.width < 43.5 || box.height < 43.5)
        faults.push(`${named(element)} is ${Math.round(box.width)} x ${Math.round(box.height)} px`);
    }
    return faults;
  }, touch);
}

/** What axe finds serious: all that it knows, or one rule of it. */
async function axeFaults(page: Page, rule?: string): Promise<string[]> {
  // Handing axe over takes longer than its run, so a page that has it is given nothing. No screen has frames, so nothing is
  // gained by gathering results in a second page, which takes as long again.
  const known = await page.evaluate(() => 'axe' in window);
  const axe = new AxeBuilder({ page, ...(known ? { axeSource: 'void 0' } : {}) })
    .setLegacyMode(true)
    .options({ resultTypes: ['violations'] });
  const { violations } = await (rule === undefined ? axe : axe.withRules(rule)).analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id} at ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
}

const showTheme = (page: Page, theme: 'daylight' | 'dim') =>
  page.evaluate((name) => {
    document.documentElement.dataset.theme = name;
  }, theme);

/** Moves on as a link of the page does, without loading it again. */
const moveTo = (page: Page, path: string) =>
  page.evaluate((to) => {
    history.pushState(null, '', to);
    dispatchEvent(new PopStateEvent('popstate'));
  }, path);

/** All faults of what a page shows, at all sizes in both themes; the page is a desk's again afterwards. */
export async function faultsShown(page: Page, name: string): Promise<string[]> {
  const faults: string[] = [];
  for (const { width, height, axe, fingers } of sizes) {
    await page.setViewportSize({ width, height });
    for (const theme of ['daylight', 'dim'] as const) {
      await showTheme(page, theme);
      await drawn(page);
      const found = await layoutFaults(page, fingers);
      // Of the themes only the colours differ.
      if (axe) found.push(...(await axeFaults(page, theme === 'dim' ? 'color-contrast' : undefined)));
      faults.push(...found.map((fault) => `${name}, ${width} px, ${theme}: ${fault}`));
    }
  }
  await page.setViewportSize(sizes[0]);
  return faults;
}

/** All faults of all screens at all sizes in both themes, and what the browser complained about. */
export async function lookAtScreens(
  browser: Browser,
  shop: Shop,
  screens: readonly ScreenToSee[],
): Promise<{ faults: string[]; complaints: string[] }> {
  const { page, complaints, close } = await openBench(browser, shop, { touch: true });
  const faults: string[] = [];
  await page.setViewportSize(sizes[0]);
  await page.goto(screens[0].path);
  for (const { name, path, shows, press } of screens) {
    await moveTo(page, path);
    for (const button of press ?? []) await page.getByRole('button', { name: button }).click();
    await page.locator(shows).first().waitFor({ timeout: 30_000 });
    faults.push(...(await faultsShown(page, name)));
  }
  await close();
  return { faults, complaints };
}

import { describe, expect, test } from 'vitest';
import { planOf } from '../../../test/plan/rule-cases.ts';
import { scanned } from '../../../test/print/scanned.ts';
import { leadList } from '../../job/leads/lead-list.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import type { Mark } from '../print/marks.ts';
import { pageSvg } from '../print/page-svg.ts';
import { labelPages, stripOf } from './label-pages.ts';
import { type LeadLabel, labelMarks, leadLabels } from './lead-label.ts';
import { defaultStock, gridOf, type Stock, stockOf } from './stock.ts';

const job = '0198c0de-1111-4222-8333-123456789abc';
const scanOf = (lead: string) => `http://localhost:4870/jobs/${job}/leads/${lead}`;
const rows = leadList(templatePlan('seven-channel'));
const labels = leadLabels(rows, scanOf);
const label: LeadLabel = {
  lead: 'L14',
  here: 'A/1 Haldane Q4',
  there: 'D1 Pillar, left',
  colour: 'white with a blue line',
  scan: scanOf('L14'),
};
const long = 'A very long name of a place that nobody would print on a small label, and then some more of it';

/** The corner of a mark furthest from the middle of `size`, as what it is over the edge by. */
function overBy(mark: Mark, { widthMm, heightMm }: { widthMm: number; heightMm: number }): number {
  const [left, right] = mark.kind === 'text' ? [mark.x, mark.x + mark.widthMm] : [mark.x, mark.x + mark.width];
  // Letters stand up to 0.93 of their size above the line and hang 0.24 below it.
  const [top, bottom] =
    mark.kind === 'text'
      ? [mark.baseline - (mark.text === 'L14' ? 0.73 : 0.93) * mark.sizeMm, mark.baseline + 0.24 * mark.sizeMm]
      : [mark.y, mark.y + mark.height];
  return Math.max(-left, -top, right - widthMm, bottom - heightMm);
}

describe('lead labels', () => {
  test('are two for each lead, one for each end, each saying which end it is', () => {
    expect(labels).toHaveLength(14);
    expect(labels.slice(0, 2)).toMatchObject([
      { lead: 'L11', here: 'A/1 Haldane Q4', there: 'D1 Pillar, left' },
      { lead: 'L11', here: 'D1 Pillar, left', there: 'A/1 Haldane Q4' },
    ]);
  });

  test.each([
    ['as usual', label],
    ['with names far too long', { ...label, here: long, there: long, colour: long }],
    ['with one word that cannot be broken', { ...label, here: 'x'.repeat(200) }],
    ['with a number of 32 signs', { ...label, lead: 'W'.repeat(32) }],
    ['with pictures for names', { ...label, here: '🚗'.repeat(40), colour: '線'.repeat(30) }],
    ['without anything known', { ...label, here: 'not planned', there: 'not planned', colour: null }],
  ])('%s keep all their marks inside, at every size', (_, one) => {
    for (const [widthMm, heightMm] of [
      [14, 6],
      [24, 12],
      [40, 15],
      [70, 60],
      [190, 200],
    ]) {
      const { marks } = labelMarks(one, { widthMm, heightMm }, { x: 0, y: 0 });
      const out = marks.filter((mark) => overBy(mark, { widthMm, heightMm }) > 1e-9);
      expect(out).toEqual([]);
    }
  });

  test('carry a code that opens the lead, at 600 dots to the inch', () => {
    for (const one of labels) {
      const { marks } = labelMarks(one, { widthMm: 24, heightMm: 12 }, { x: 3, y: 5 });
      const ink = marks.filter((mark) => mark.kind === 'rect');
      expect(scanned(ink, { x: 3, y: 5, width: 12, height: 12 }, 600 / 25.4)).toBe(one.scan);
    }
  });

  test('leave four modules of white around the code', () => {
    const { marks, moduleMm } = labelMarks(label, { widthMm: 24, heightMm: 12 }, { x: 0, y: 0 });
    const ink = marks.filter((mark) => mark.kind === 'rect');
    const text = marks.filter((mark) => mark.kind === 'text');
    const right = Math.max(...ink.map(({ x, width }) => x + width));
    expect(Math.min(...ink.map(({ x }) => x))).toBeCloseTo(4 * moduleMm, 9);
    expect(Math.min(...ink.map(({ y }) => y))).toBeCloseTo(4 * moduleMm, 9);
    expect(Math.min(...text.map(({ x }) => x)) - right).toBeCloseTo(4 * moduleMm, 9);
  });

  test('say an end that is not planned as such', () => {
    const [row] = leadList(planOf({ lead: [{ id: 'L1' }] }));
    expect(leadLabels([row], String)[0]).toMatchObject({ here: 'not planned', there: 'not planned', colour: null });
  });
});

describe('stock', () => {
  test('fills A4 with whole labels: 7 by 20 of 24 by 12 mm', () => {
    // 7 x 24 + 6 x 2 = 180 of 190 mm; 20 x 12 + 19 x 2 = 278 of 277 mm is one too many: 19 rows.
    expect(gridOf(defaultStock)).toEqual({ columns: 7, rows: 19 });
  });

  test('goes on with another sheet', () => {
    const many = Array.from({ length: 7 * 19 + 1 }, () => label);
    expect(labelPages(many, defaultStock).pages).toHaveLength(2);
  });

  test('of a roll is a page of the size of a label for each, or one strip', () => {
    const roll: Stock = { ...defaultStock, kind: 'roll' };
    const { pages } = labelPages(labels, roll);
    expect(pages.map(({ widthMm, heightMm }) => [widthMm, heightMm])).toEqual(Array(14).fill([24, 12]));
    // 14 labels and 13 gaps.
    expect(stripOf(pages, roll)).toMatchObject({ widthMm: 24, heightMm: 14 * 12 + 13 * 2 });
  });

  test.each([
    ['too narrow for a name beside the code', { widthMm: 19, heightMm: 12 }, 'label-too-narrow'],
    ['larger than the sheet', { widthMm: 195, heightMm: 12 }, 'label-too-large'],
  ])('%s is refused', (_, size, code) => {
    const found = stockOf({ ...defaultStock, ...size });
    expect(found.ok ? [] : found.issues.map((issue) => issue.code)).toEqual([code]);
  });
});

describe('a page as SVG', () => {
  const [page] = labelPages(labels, defaultStock).pages;

  test('has the size of the sheet in millimetres and a unit of one millimetre', () => {
    expect(pageSvg(page, 'labels')).toContain('width="210mm" height="297mm" viewBox="0 0 210 297"');
  });

  test('has labels of their size at their distance', () => {
    const cuts = [...pageSvg(page, 'labels').matchAll(/class="cut" x="([\d.]+)" y="([\d.]+)" width="24" height="12"/g)];
    expect(cuts).toHaveLength(14);
    expect(cuts.slice(0, 2).map(([, x, y]) => [x, y])).toEqual([
      ['10', '10'],
      ['36', '10'],
    ]);
  });

  test('takes names for text, whatever they are', () => {
    const one = { ...label, here: '</text><script>alert(1)</script>', colour: 'a\u0000b\ud800c' };
    const svg = pageSvg(
      { widthMm: 90, heightMm: 40, marks: labelMarks(one, { widthMm: 90, heightMm: 40 }, { x: 0, y: 0 }).marks },
      '<b>&',
    );
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&lt;script&gt;');
    expect(svg).toContain('<title>&lt;b&gt;&amp;</title>');
    expect(svg).toContain('>a b c<');
  });

  test('has a line of 100 mm to check the printer with', () => {
    expect(pageSvg(page, 'labels')).toMatch(/class="ink" x="10" y="[\d.]+" width="100" height="0.2"/);
  });
});

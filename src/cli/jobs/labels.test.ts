import { readdirSync, readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type JobDesk, jobDesk } from '../../../test/job/job-command.ts';
import { scanned } from '../../../test/print/scanned.ts';
import { templatePlan } from '../../plan/templates/templates.ts';

let desk: JobDesk;
beforeEach(() => {
  desk = jobDesk();
});
afterEach(() => desk.clear());

const path = (name: string) => desk.path(name);
const job: JobDesk['job'] = (...words) => desk.job(...words);
const answer: JobDesk['answer'] = (...words) => desk.answer(...words);
const refusal: JobDesk['refusal'] = (...words) => desk.refusal(...words);

const planFile = (more: object = {}) =>
  desk.file('plan.json', { schema: 'kickpanel.plan/1', ...templatePlan('seven-channel'), ...more });

const MM = 25.4 / 72;

/** What a PDF says of its pages: their size, and every rectangle on them, in mm from the top left; read from its bytes. */
function pdfPages(bytes: Buffer) {
  const text = bytes.toString('latin1');
  const pages = [...text.matchAll(/\/MediaBox \[([\d. ]+)\]\s*\/Contents (\d+) 0 R/g)];
  return pages.map(([, box, contents]) => {
    const [, , wide, high] = box.split(' ').map(Number);
    const at = text.indexOf(`\n${contents} 0 obj`);
    const start = text.indexOf('stream\n', at) + 'stream\n'.length;
    const length = Number(/\/Length (\d+)/.exec(text.slice(at, start))?.[1]);
    const drawing = inflateSync(bytes.subarray(start, start + length)).toString('latin1');
    // The page is turned over once, so that lengths count from the top.
    expect(drawing.startsWith(`1 0 0 -1 0 ${high} cm`)).toBe(true);
    const rects = [...drawing.matchAll(/([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) re\n([\s\S]*?)\n(f|S)\n/g)].map(
      (found) => {
        const [x, y, width, height] = found.slice(1, 5).map((value) => Number(value) * MM);
        return { x, y, width, height, filled: found[6] === 'f' };
      },
    );
    return { widthMm: wide * MM, heightMm: high * MM, rects };
  });
}

describe('job labels as PDF', () => {
  test('are on A4, each of its size to a twentieth of a millimetre', async () => {
    const made = await answer('labels', '--plan', planFile(), '--out', path('l.pdf'));
    expect(made).toMatchObject({ leads: 7, labels: 14, pages: 1, written: [path('l.pdf')], notes: [] });
    const [page, ...more] = pdfPages(readFileSync(path('l.pdf')));
    expect(more).toEqual([]);
    expect(page.widthMm).toBeCloseTo(210, 2);
    expect(page.heightMm).toBeCloseTo(297, 2);
    const cuts = page.rects.filter(({ filled }) => !filled);
    expect(cuts).toHaveLength(14);
    cuts.forEach(({ x, y, width, height }, n) => {
      expect(Math.abs(width - 24)).toBeLessThan(0.05);
      expect(Math.abs(height - 12)).toBeLessThan(0.05);
      expect(Math.abs(x - (10 + (n % 7) * 26))).toBeLessThan(0.05);
      expect(Math.abs(y - (10 + Math.floor(n / 7) * 14))).toBeLessThan(0.05);
    });
  });

  test('of a job open its leads when their codes are scanned', async () => {
    await job('new', 'Four doors', '--number', '7');
    await job('plan', 'template', '7', 'two-way-front');
    const made = await answer(
      'labels',
      '7',
      '--address',
      'https://shop.example:8443/',
      '--out',
      path('l.pdf'),
      '--height',
      '15',
    );
    const [page] = pdfPages(readFileSync(path('l.pdf')));
    const codes = page.rects
      .filter(({ filled }) => !filled)
      .map(({ x, y }) =>
        scanned(
          page.rects.filter(({ filled }) => filled),
          { x, y, width: 15, height: 15 },
          24,
        ),
      );
    const scans = made.scans.map(({ text }: { text: string }) => text);
    expect(codes).toEqual(scans.flatMap((text: string) => [text, text]));
    expect(scans[0]).toBe(`https://shop.example:8443/jobs/${made.job}/leads/L11`);
  });

  test('of a roll are pages of the size of the label', async () => {
    const size = ['--stock', 'roll', '--width', '50', '--height', '20'];
    await answer('labels', '--plan', planFile(), '--out', path('l.pdf'), ...size);
    const pages = pdfPages(readFileSync(path('l.pdf')));
    expect(pages).toHaveLength(14);
    for (const { widthMm, heightMm } of pages) {
      expect(widthMm).toBeCloseTo(50, 2);
      expect(heightMm).toBeCloseTo(20, 2);
    }
  });

  test('are the same bytes each time, with the font inside', async () => {
    const made = async (name: string) => {
      await answer('labels', '--plan', planFile(), '--out', path(name));
      return readFileSync(path(name));
    };
    const first = await made('a.pdf');
    expect(first.equals(await made('b.pdf'))).toBe(true);
    expect(first.toString('latin1')).toMatch(/\/FontFile2/);
    expect(first.toString('latin1')).not.toMatch(/CreationDate/);
  });
});

describe('job labels as SVG', () => {
  test('are a file a sheet', async () => {
    const lead = Array.from({ length: 80 }, (_, n) => ({ id: `L${n + 1}`, kind: 'signal' }));
    const made = await answer('labels', '--plan', planFile({ lead, holdPoint: [] }), '--out', path('l.svg'));
    expect(made.written).toEqual([path('l.svg'), path('l-2.svg')]);
    expect(readdirSync(desk.path('.')).filter((name) => name.endsWith('.svg'))).toHaveLength(2);
  });

  test('of a roll are one strip', async () => {
    await answer('labels', '--plan', planFile(), '--out', path('l.svg'), '--stock', 'roll');
    expect(readFileSync(path('l.svg'), 'utf8')).toContain('width="24mm" height="194mm" viewBox="0 0 24 194"');
  });

  test('say when a code is too fine to be scanned well', async () => {
    await job('new', 'Four doors', '--number', '7');
    await job('plan', 'template', '7', 'two-way-front');
    const made = await answer('labels', '7', '--out', path('l.svg'), '--height', '8');
    expect(made.notes).toHaveLength(1);
  });
});

test('job labels says what it cannot print', async () => {
  const plan = planFile();
  expect(await refusal('labels', '--plan', plan)).toBe('option-missing');
  expect(await refusal('labels', '--plan', plan, '--out', path('l.png'))).toBe('bad-option-value');
  const out = ['--out', path('l.pdf')];
  expect(await refusal('labels', '--plan', plan, ...out, '--width', '1e308')).toBe('bad-option-value');
  expect(await refusal('labels', '--plan', plan, ...out, '--width', '12')).toBe('label-too-narrow');
  expect(await refusal('labels', '--plan', plan, ...out, '--stock', 'rol')).toBe('bad-option-value');
  expect(await refusal('labels', '--plan', plan, ...out, '--address', 'javascript:alert(1)')).toBe('bad-option-value');
  expect(await refusal('labels', '--plan', planFile({ lead: [], holdPoint: [] }), ...out)).toBe('nothing-to-print');
  expect(await refusal('labels', '--plan', planFile(), '--out', path('no/folder/l.pdf'))).toBe('folder-not-found');
  expect(readdirSync(desk.path('.')).filter((name) => /\.pdf/.test(name))).toEqual([]);
});

// A frequency response as SVG text: one curve, the range that may not be relied on tinted, one sentence that says it.
import { frequencyAxis } from './frequency-axis.ts';

export interface ResponseChart {
  /** Rising, > 0. */
  fHz: number[];
  /** null: nothing to draw. */
  levelDb: (number | null)[];
  /** Whether the level may be relied on. */
  valid: boolean[];
  /** What is to be seen, in one sentence; it is the text alternative too. */
  sentence: string;
  /** What, where, how smoothed: the state under which it holds. */
  state: string;
  /** Ends of the pass band to be marked, Hz. */
  marksHz: number[];
  widthPx: number;
  heightPx: number;
}

const ink = '#12202a';
const quiet = '#526069';
const grid = '#d8ddd6';
const tint = '#e6eae2';
const card = '#fdfefb';

const margin = { left: 64, right: 24, top: 64, bottom: 56 };
/** No less, so that a flat driver does not look like a rough one. */
const leastSpanDb = 50;

function escaped(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}

const px = (value: number) => String(Math.round(value * 100) / 100);

/** Stretches of indices for which `holds`. */
function runs(length: number, holds: (index: number) => boolean): [from: number, to: number][] {
  const found: [number, number][] = [];
  let from = -1;
  for (let index = 0; index <= length; index++) {
    const inside = index < length && holds(index);
    if (inside && from < 0) from = index;
    if (!inside && from >= 0) found.push([from, index - 1]);
    if (!inside) from = -1;
  }
  return found;
}

/** The level range: the top a multiple of 10 dB above the highest level that counts, at least 50 dB down from there. */
function levelRange({ levelDb, valid }: ResponseChart): { topDb: number; bottomDb: number } {
  const known = levelDb.filter((level): level is number => level !== null);
  const trusted = levelDb.filter((level, index): level is number => level !== null && valid[index]);
  const levels = trusted.length > 0 ? trusted : known;
  const highest = levels.reduce((most, level) => Math.max(most, level), Number.NEGATIVE_INFINITY);
  const lowest = levels.reduce((least, level) => Math.min(least, level), Number.POSITIVE_INFINITY);
  if (levels.length === 0) return { topDb: 0, bottomDb: -leastSpanDb };
  const topDb = Math.ceil((highest + 1) / 10) * 10;
  return { topDb, bottomDb: Math.min(topDb - leastSpanDb, Math.floor(lowest / 10) * 10) };
}

/**
 * The chart as SVG text.
 *
 * @param chart equally long arrays, at least two frequencies; not changed
 * @returns a whole SVG document without references to anything outside it; the same chart gives the same text
 * @throws RangeError fewer than two frequencies, or a size that leaves no room: the caller's mistake
 */
export function responseChart(chart: ResponseChart): string {
  const { fHz, levelDb, valid, widthPx, heightPx } = chart;
  if (fHz.length < 2) throw new RangeError(`a response chart needs 2 frequencies or more, got ${fHz.length}`);
  const plotWidth = widthPx - margin.left - margin.right;
  const plotHeight = heightPx - margin.top - margin.bottom;
  if (!(plotHeight > 0)) throw new RangeError(`heightPx must be over ${margin.top + margin.bottom}, got ${heightPx}`);
  const axis = frequencyAxis(fHz[0], fHz[fHz.length - 1], plotWidth);
  const { topDb, bottomDb } = levelRange(chart);
  const yOf = (db: number) => (plotHeight * (topDb - db)) / (topDb - bottomDb);
  const at = (index: number) => px(axis.xOf(fHz[index]));

  const doubtful = runs(fHz.length, (index) => !valid[index]).map(
    ([from, to]) =>
      `<rect x="${at(from)}" y="0" width="${px(axis.xOf(fHz[to]) - axis.xOf(fHz[from]))}" height="${plotHeight}" fill="${tint}"/>`,
  );
  const upright = axis.lines.map((line) => `<path d="M${px(axis.xOf(line))} 0V${plotHeight}"/>`);
  const levels = Array.from({ length: Math.round((topDb - bottomDb) / 10) + 1 }, (_, step) => topDb - 10 * step);
  const level = levels.map((db) => `<path d="M0 ${px(yOf(db))}H${plotWidth}"/>`);
  const curve = runs(fHz.length, (index) => levelDb[index] !== null).map(([from, to]) => {
    const points = Array.from({ length: to - from + 1 }, (_, step) => from + step);
    return `<path d="M${points.map((index) => `${at(index)} ${px(yOf(levelDb[index] as number))}`).join('L')}"/>`;
  });
  const marks = chart.marksHz.map((mark) => {
    const nearest = fHz.reduce((best, f, index) => (Math.abs(f - mark) < Math.abs(fHz[best] - mark) ? index : best), 0);
    const y = levelDb[nearest];
    return y === null ? '' : `<path d="M${at(nearest)} ${px(yOf(y))}m0 -8l8 8l-8 8l-8 -8z" fill="${card}"/>`;
  });
  const levelLabels = levels.map(
    (db, index) => `<text x="-10" y="${px(yOf(db) + 5)}" text-anchor="end">${db}${index === 0 ? ' dB' : ''}</text>`,
  );
  const labels = axis.labels.map(
    ({ fHz: f, text }) => `<text x="${px(axis.xOf(f))}" y="${plotHeight + 22}" text-anchor="middle">${text}</text>`,
  );
  const about = `${escaped(chart.sentence)} ${escaped(chart.state)}`;
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${widthPx} ${heightPx}" role="img" aria-label="${about}" font-family="'Encode Sans', 'Helvetica Neue', Arial, sans-serif" font-size="14" fill="${ink}">`,
    `<title>${about}</title>`,
    `<rect width="${widthPx}" height="${heightPx}" rx="6" fill="${card}"/>`,
    `<text x="24" y="36" font-size="19">${escaped(chart.sentence)}</text>`,
    `<text x="24" y="${heightPx - 12}" font-size="13" fill="${quiet}">${escaped(chart.state)}</text>`,
    `<g transform="translate(${margin.left} ${margin.top})">`,
    ...doubtful,
    `<g fill="none" stroke="${grid}">${[...upright, ...level].join('')}</g>`,
    `<svg width="${plotWidth}" height="${plotHeight}" overflow="hidden"><g fill="none" stroke="${ink}" stroke-width="2.8" stroke-linejoin="round">${curve.join('')}</g></svg>`,
    `<g stroke="${ink}" stroke-width="1.5">${marks.join('')}</g>`,
    `<g fill="${quiet}">${[...levelLabels, ...labels].join('')}</g>`,
    '</g>',
    '</svg>',
  ].join('\n')}\n`;
}

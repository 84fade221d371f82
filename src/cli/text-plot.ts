// A curve over a logarithmic frequency axis in plain characters. No meaning hangs on colour.

import { braille, type DotGrid, dotGrid, plainDots } from './dot-grid.ts';
import type { TextStyle } from './output.ts';

export interface PlotCurve {
  /** Rising, > 0. */
  fHz: number[];
  /** null: nothing to draw. */
  levelDb: (number | null)[];
  /** False: drawn dotted. */
  valid: boolean[];
}

const rows = 12;
/** Every plot spans the same range, so that two of them can be compared by eye. */
const spanDb = 60;
const tickHz = [5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000];

interface Frame {
  fromHz: number;
  toHz: number;
  topDb: number;
  columns: number;
}

/** The frame around what can be drawn: frequencies end to end, the top on a multiple of 10 dB above the highest level. */
function frameOf(curve: PlotCurve, columns: number): Frame | null {
  const drawn = curve.fHz.filter((_, index) => curve.levelDb[index] !== null);
  if (drawn.length < 2) return null;
  const trusted = curve.levelDb.filter((level, index) => level !== null && curve.valid[index]) as number[];
  const levels = trusted.length > 0 ? trusted : (curve.levelDb.filter((level) => level !== null) as number[]);
  const highest = levels.reduce((most, level) => Math.max(most, level), Number.NEGATIVE_INFINITY);
  return { fromHz: drawn[0], toHz: drawn[drawn.length - 1], topDb: Math.ceil(highest / 10) * 10, columns };
}

const share = (fHz: number, { fromHz, toHz }: Frame) => Math.log(fHz / fromHz) / Math.log(toHz / fromHz);

/** Lowest and highest dot row of each dot column that the curve passes; levels under the frame fall away. */
function drawCurve(grid: DotGrid, curve: PlotCurve, frame: Frame): void {
  let last: { x: number; y: number } | null = null;
  curve.fHz.forEach((fHz, index) => {
    const level = curve.levelDb[index];
    if (level === null) {
      last = null;
      return;
    }
    const x = Math.round(share(fHz, frame) * (grid.width - 1));
    const y = Math.round(((frame.topDb - level) / spanDb) * (grid.height - 1));
    const dotted = !curve.valid[index];
    const from: { x: number; y: number } = last ?? { x, y };
    const steps = Math.max(Math.abs(x - from.x), Math.abs(y - from.y), 1);
    for (let step = 0; step <= steps; step++) {
      const atX = Math.round(from.x + ((x - from.x) * step) / steps);
      const atY = Math.round(from.y + ((y - from.y) * step) / steps);
      if (!dotted || (atX % 4 === 0 && (step === steps || from.x === x))) grid.set(atX, atY);
    }
    last = { x, y };
  });
}

function tickText(fHz: number): string {
  return fHz >= 1000 ? `${fHz / 1000}k` : String(fHz);
}

/** The axis line with its ticks, and the labels under it: every tick that has room, the first one with the unit. */
function frequencyAxis(frame: Frame, margin: number, unicode: boolean): string[] {
  const [corner, line, tick] = unicode ? ['\u2514', '\u2500', '\u252c'] : ['+', '-', '+'];
  const axis = Array.from({ length: frame.columns }, () => line);
  const labels = Array.from({ length: frame.columns + margin + 8 }, () => ' ');
  let free = 0;
  let first = true;
  for (const fHz of tickHz.filter((f) => f >= frame.fromHz * 0.999 && f <= frame.toHz * 1.001)) {
    const column = Math.round(share(fHz, frame) * (frame.columns - 1));
    axis[column] = tick;
    const text = first ? `${tickText(fHz)} Hz` : tickText(fHz);
    const start = margin + 1 + column - (first ? 0 : Math.floor(text.length / 2));
    if (start < free || start + text.length > margin + 1 + frame.columns + 2) continue;
    for (let i = 0; i < text.length; i++) labels[start + i] = text[i];
    free = start + text.length + 1;
    first = false;
  }
  return [`${' '.repeat(margin)}${corner}${axis.join('')}`, labels.join('').trimEnd()];
}

/**
 * The curve as lines of text, `style.width` columns at most; no lines where there is nothing to draw.
 *
 * 60 dB from top to bottom whatever the curve does, so slopes look alike from plot to plot. What may not be relied on is
 * dotted.
 */
export function textPlot(curve: PlotCurve, style: TextStyle): string[] {
  const margin = 8;
  const frame = frameOf(curve, style.width - margin - 3);
  if (frame === null) return [];
  const cell = style.unicode ? { width: 2, height: 4 } : { width: 1, height: 1 };
  // In ASCII a row of text is one dot high, so one more row puts a dot on both edges of the range.
  const grid = dotGrid(frame.columns * cell.width, rows * cell.height + 1);
  drawCurve(grid, curve, frame);
  const text = style.unicode ? braille(grid) : plainDots(grid);
  const wall = style.unicode ? ['\u2524', '\u2502'] : ['+', '|'];
  const perRow = spanDb / rows;
  const body = Array.from({ length: rows + 1 }, (_, row) => {
    const level = frame.topDb - row * perRow;
    const labelled = row % 2 === 0;
    const label = labelled ? `${level}${row === 0 ? ' dB' : ''}` : '';
    return `${label.padStart(margin - 1)} ${wall[labelled ? 0 : 1]}${text[row] ?? ''}`.trimEnd();
  });
  return [...body, ...frequencyAxis(frame, margin, style.unicode)];
}

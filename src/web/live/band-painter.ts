// Paints the bands: agreed sound, average, spread, this moment. No bars from a floor, no colours by height, no peak hold.
import { toleranceDb } from './live-model.ts';

export interface BandsShown {
  momentDb: Float64Array;
  averageDb: Float64Array;
  spreadDb: ArrayLike<number>;
  agreedDb: Float64Array | null;
}

export interface PaintColours {
  ink: string;
  quiet: string;
  card: string;
  stock: string;
  stop: string;
  stopWash: string;
}

export interface LevelRange {
  fromDb: number;
  toDb: number;
}

const rangeDb = 50;

/** The range of levels that is drawn: wide, and moved in steps of 10 dB so that the picture stands still. */
export function levelRange(averageDb: ArrayLike<number>, before: LevelRange | null): LevelRange {
  const sorted = Array.from(averageDb)
    .filter((level) => level > -135)
    .sort((a, b) => a - b);
  if (sorted.length === 0) return before ?? { fromDb: -40 - rangeDb, toDb: -40 };
  const highest = sorted[sorted.length - 1];
  const middle = sorted[Math.floor(sorted.length / 2)];
  const fits = before !== null && highest < before.toDb - 2 && highest > before.toDb - 24 && middle > before.fromDb + 4;
  if (fits) return before;
  const toDb = Math.ceil((highest + 8) / 10) * 10;
  return { fromDb: toDb - rangeDb, toDb };
}

export function coloursOf(element: Element): PaintColours {
  const style = getComputedStyle(element);
  const of = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: of('--ink'),
    quiet: of('--ink-3'),
    card: of('--card'),
    stock: of('--stock'),
    stop: of('--stop'),
    stopWash: of('--stop-wash'),
  };
}

/** Draws what moves slowly: agreed sound, spread and average. The dots of this moment are moved by themselves. */
export function paintBands(
  pen: CanvasRenderingContext2D,
  size: { width: number; height: number },
  bands: BandsShown,
  range: LevelRange,
  colours: PaintColours,
): void {
  const count = bands.averageDb.length;
  const column = size.width / count;
  const y = (db: number) => ((range.toDb - db) / (range.toDb - range.fromDb)) * size.height;
  const narrow = column < 18;
  pen.clearRect(0, 0, size.width, size.height);
  if (bands.agreedDb) {
    pen.fillStyle = colours.stock;
    for (let b = 0; b < count; b++) {
      const top = y(bands.agreedDb[b] + toleranceDb);
      pen.fillRect(b * column, top, column + 0.5, y(bands.agreedDb[b] - toleranceDb) - top);
    }
  }
  for (let b = 0; b < count; b++) {
    const middle = (b + 0.5) * column;
    const average = bands.averageDb[b];
    if (average < -135) continue;
    const out = bands.agreedDb !== null && Math.abs(average - bands.agreedDb[b]) > toleranceDb;
    const half = narrow ? 3 : 6;
    const top = y(average + bands.spreadDb[b]);
    const height = Math.max(3, y(average - bands.spreadDb[b]) - top);
    pen.fillStyle = out ? colours.stopWash : colours.card;
    pen.fillRect(middle - half, top, 2 * half, height);
    pen.strokeStyle = out ? colours.stop : colours.ink;
    pen.lineWidth = 1.5;
    if (!out) hatch(pen, middle - half, top, 2 * half, height, colours.quiet);
    pen.strokeRect(middle - half, top, 2 * half, height);
    pen.fillStyle = out ? colours.stop : colours.ink;
    const bar = narrow ? column * 0.42 : Math.min(12, column * 0.42);
    pen.fillRect(middle - bar, y(average) - 2.5, 2 * bar, narrow ? 4 : 5);
    if (out && bands.agreedDb) offText(pen, average - bands.agreedDb[b], middle, top, height, colours.stop);
  }
}

function hatch(
  pen: CanvasRenderingContext2D,
  x: number,
  y: number,
  width: number,
  height: number,
  colour: string,
): void {
  pen.save();
  pen.beginPath();
  pen.rect(x, y, width, height);
  pen.clip();
  pen.strokeStyle = colour;
  pen.lineWidth = 1;
  pen.beginPath();
  for (let at = -width; at < height; at += 5) {
    pen.moveTo(x, y + at + width);
    pen.lineTo(x + width, y + at);
  }
  pen.stroke();
  pen.restore();
}

function offText(
  pen: CanvasRenderingContext2D,
  offDb: number,
  x: number,
  top: number,
  height: number,
  colour: string,
): void {
  pen.font = '700 16px "Encode Sans Variable", sans-serif';
  pen.textAlign = 'center';
  pen.fillStyle = colour;
  const text = `${offDb > 0 ? '+' : '\u2212'}${Math.abs(offDb).toFixed(0)}`;
  pen.fillText(text, x, offDb > 0 ? top - 8 : top + height + 19);
}

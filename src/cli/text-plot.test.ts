import { describe, expect, test } from 'vitest';
import { textPlot } from './text-plot.ts';

const unicode = { width: 80, unicode: true, colour: false };
const ascii = { ...unicode, unicode: false };

/** A curve on a grid of 1/12 octave from 20 Hz to 20 kHz. */
function curve(levelDb: (fHz: number) => number | null, valid: (fHz: number) => boolean = () => true) {
  const fHz = Array.from({ length: 120 }, (_, index) => 20 * 2 ** (index / 12));
  return { fHz, levelDb: fHz.map(levelDb), valid: fHz.map(valid) };
}

/** Rows of the body in which something is drawn behind the axis. */
function drawnRows(lines: string[]): number[] {
  return lines.flatMap((line, row) => (row < 13 && line.slice(9).trim() !== '' ? [row] : []));
}

describe('textPlot', () => {
  test('draws a flat line at its level: -20 dB on the row that says -20', () => {
    const lines = textPlot(
      curve((fHz) => (fHz < 40 ? -11 : -20)),
      ascii,
    );
    expect(lines[0]).toContain('-10 dB +');
    expect(lines[2]).toMatch(/^ +-20 \+ +\*{60,}/);
  });

  test('spans 60 dB whatever the curve does', () => {
    for (const depth of [1, 30, 200]) {
      const lines = textPlot(
        curve((fHz) => -depth * Math.log10(fHz / 20)),
        ascii,
      );
      expect(lines[0]).toContain('0 dB');
      expect(lines[12]).toContain('-60');
    }
  });

  test('puts a step at its frequency', () => {
    const lines = textPlot(
      curve((fHz) => (fHz < 632 ? -5 : -45)),
      ascii,
    );
    const step = lines[5].indexOf('*', 9) - 9;
    expect(step / 68).toBeCloseTo(0.5, 1);
    const tick = lines[14].indexOf('500');
    expect(Math.abs(step + 9 - tick)).toBeLessThan(6);
  });

  test('leaves a gap where there is nothing to draw', () => {
    const lines = textPlot(
      curve((fHz) => (fHz > 200 && fHz < 2000 ? null : -10)),
      ascii,
    );
    expect(lines[0]).toMatch(/\*{15,} {15,}\*{15,}/);
  });

  test('dots what may not be relied on', () => {
    const lines = textPlot(
      curve(
        () => -10,
        (fHz) => fHz > 632,
      ),
      ascii,
    );
    const [left, right] = [lines[0].slice(9, 43), lines[0].slice(43)];
    expect(left.split('*').length).toBeLessThan(right.split('*').length / 2);
    expect(left).toContain('*');
  });

  test('keeps to the width and to ASCII where asked', () => {
    for (const width of [60, 80, 120]) {
      for (const style of [unicode, ascii]) {
        const lines = textPlot(
          curve((fHz) => 10 * Math.sin(fHz)),
          { ...style, width },
        );
        expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(width);
        if (!style.unicode) expect([...lines.join('')].every((character) => character <= '~')).toBe(true);
      }
    }
  });

  test('labels the axis with the unit once', () => {
    const lines = textPlot(
      curve(() => 0),
      unicode,
    );
    expect(lines[14].trim().split(/\s+/)).toEqual(['20', 'Hz', '50', '100', '200', '500', '1k', '2k', '5k', '10k']);
  });

  test('is nothing where there is nothing', () => {
    expect(textPlot({ fHz: [], levelDb: [], valid: [] }, unicode)).toEqual([]);
    expect(
      textPlot(
        curve(() => null),
        unicode,
      ),
    ).toEqual([]);
  });

  test('still draws when nothing of it may be relied on', () => {
    const lines = textPlot(
      curve(
        () => -30,
        () => false,
      ),
      ascii,
    );
    expect(drawnRows(lines)).toEqual([0]);
  });
});

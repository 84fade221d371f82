import { describe, expect, test } from 'vitest';
import { labelPlaces, textWidthPx } from './label-places.ts';

const size = { widthPx: 600, heightPx: 200, textPx: 14 };
const line = (y: number): [number, number][] => Array.from({ length: 61 }, (_, i) => [i * 10, y]);

describe('labels beside curves', () => {
  test('stand clear of every curve and of each other', () => {
    const curves = [line(100), line(60), line(140)];
    const places = labelPlaces(
      curves.map((points, i) => ({ text: `curve ${i}`, points })),
      size,
    );
    const boxes = places.map((place) => {
      if (!place) throw new Error('each curve has a label');
      return {
        left: place.x,
        right: place.x + textWidthPx('curve 0', 14),
        top: place.baseline - 13,
        bottom: place.baseline + 4,
      };
    });
    for (const [i, box] of boxes.entries()) {
      for (const points of curves) {
        const y = points[0][1];
        expect(y < box.top || y > box.bottom, `label ${i} clear of the line at ${y}`).toBe(true);
      }
      for (const other of boxes.slice(i + 1)) {
        const apart =
          box.right < other.left || other.right < box.left || box.bottom < other.top || other.bottom < box.top;
        expect(apart, `label ${i} clear of the next`).toBe(true);
      }
      expect(box.top).toBeGreaterThanOrEqual(0);
      expect(box.bottom).toBeLessThanOrEqual(200);
    }
  });

  test('keep off what is marked already', () => {
    const mark = { left: 0, right: 600, top: 60, bottom: 99 };
    const [place] = labelPlaces([{ text: 'average', points: line(100) }], size, [mark]);
    expect(place?.baseline).toBeGreaterThan(100);
  });

  test('have no place where there is no curve', () => {
    expect(labelPlaces([{ text: 'nothing', points: [] }], size)).toEqual([null]);
  });
});

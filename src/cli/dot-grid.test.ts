import { describe, expect, test } from 'vitest';
import { braille, dotGrid, plainDots } from './dot-grid.ts';

describe('a grid of dots', () => {
  test('forgets what lies outside', () => {
    const grid = dotGrid(2, 2);
    grid.set(-1, 0);
    grid.set(2, 0);
    grid.set(0, 2);
    expect(plainDots(grid)).toEqual(['', '']);
    expect(grid.has(2, 0)).toBe(false);
  });

  // Dots 1 to 8 of a cell by place; the code point is 2800 plus the bits (The Unicode Standard, braille patterns).
  test.each([
    [0, 0, 0x2801],
    [0, 1, 0x2802],
    [0, 2, 0x2804],
    [1, 0, 0x2808],
    [1, 1, 0x2810],
    [1, 2, 0x2820],
    [0, 3, 0x2840],
    [1, 3, 0x2880],
  ])('column %i, row %i is one braille dot', (x, y, code) => {
    const grid = dotGrid(2, 4);
    grid.set(x, y);
    expect(braille(grid)).toEqual([String.fromCharCode(code)]);
  });

  test('is one character a dot in plain text', () => {
    const grid = dotGrid(3, 2);
    grid.set(1, 0);
    grid.set(2, 1);
    expect(plainDots(grid)).toEqual([' *', '  *']);
  });
});

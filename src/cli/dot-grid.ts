// A grid of dots, and two ways to set it in characters: eight dots to a character, or one.

export interface DotGrid {
  readonly width: number;
  readonly height: number;
  /** Sets the dot in column `x` of row `y`, both from the upper left; outside the grid it does nothing. */
  set: (x: number, y: number) => void;
  has: (x: number, y: number) => boolean;
}

/** An empty grid. */
export function dotGrid(width: number, height: number): DotGrid {
  const dots = new Uint8Array(width * height);
  const inside = (x: number, y: number) => x >= 0 && x < width && y >= 0 && y < height;
  return {
    width,
    height,
    set(x, y) {
      if (inside(x, y)) dots[y * width + x] = 1;
    },
    has: (x, y) => inside(x, y) && dots[y * width + x] === 1,
  };
}

/** Bits of the eight dots of a character, by row and column: the order of Unicode's block 2800. */
const bits = [
  [0x01, 0x08],
  [0x02, 0x10],
  [0x04, 0x20],
  [0x40, 0x80],
];

/** Lines in which each character holds two columns and four rows of dots. */
export function braille(grid: DotGrid): string[] {
  const lines: string[] = [];
  for (let top = 0; top < grid.height; top += 4) {
    let line = '';
    for (let left = 0; left < grid.width; left += 2) {
      let code = 0;
      bits.forEach((row, dy) => {
        row.forEach((bit, dx) => {
          if (grid.has(left + dx, top + dy)) code |= bit;
        });
      });
      line += code === 0 ? ' ' : String.fromCharCode(0x2800 + code);
    }
    lines.push(line.trimEnd());
  }
  return lines;
}

/** Lines of one character a dot. */
export function plainDots(grid: DotGrid): string[] {
  return Array.from({ length: grid.height }, (_, y) =>
    Array.from({ length: grid.width }, (_, x) => (grid.has(x, y) ? '*' : ' '))
      .join('')
      .trimEnd(),
  );
}

// What a telephone would read of a code: dark rectangles painted into a bitmap, and a decoder of other people's.
import jsQR from 'jsqr';

interface Rect {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** The text of the code in a field, or null. `rects` are dark, in the units of `field`. */
export function scanned(rects: readonly Rect[], field: Rect, dotsPerUnit: number): string | null {
  const [wide, high] = [Math.round(field.width * dotsPerUnit), Math.round(field.height * dotsPerUnit)];
  const pixels = new Uint8ClampedArray(4 * wide * high).fill(255);
  for (const { x, y, width, height } of rects) {
    const dot = (value: number) => Math.round(value * dotsPerUnit);
    const [left, right, top, bottom] = [x - field.x, x - field.x + width, y - field.y, y - field.y + height].map(dot);
    for (let row = Math.max(0, top); row < Math.min(high, bottom); row++) {
      for (let column = Math.max(0, left); column < Math.min(wide, right); column++) {
        pixels.fill(0, 4 * (row * wide + column), 4 * (row * wide + column) + 3);
      }
    }
  }
  return scannedPixels(pixels, wide, high);
}

/** The text of the code in a picture of four bytes a dot, or null. */
export function scannedPixels(pixels: Uint8ClampedArray, wide: number, high: number): string | null {
  // The package is CommonJS: its function is the default of its default for some loaders.
  const decode = ('default' in jsQR ? (jsQR as { default: typeof jsQR }).default : jsQR) as typeof jsQR;
  return decode(pixels, wide, high)?.data ?? null;
}

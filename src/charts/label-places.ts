// Finds a place for each label beside its curve where it covers nothing: a curve, another label or the edge.

export interface Rectangle {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

export interface LabelWish {
  text: string;
  /** The label's own curve, px; gaps left out. */
  points: readonly [x: number, y: number][];
}

export interface LabelPlace {
  /** Left end of the text and its baseline, px. */
  x: number;
  baseline: number;
}

const lineHeightPx = 17;
const candidates = 24;

/** Width of a text, px, by the average letter: enough to keep labels apart. */
export function textWidthPx(text: string, sizePx: number): number {
  return text.length * sizePx * 0.53;
}

function overlapArea(a: Rectangle, b: Rectangle): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}

/** How many steps of a curve run through the rectangle. */
function crossings(points: readonly [number, number][], box: Rectangle): number {
  let count = 0;
  for (let i = 1; i < points.length; i++) {
    const [x0, y0] = points[i - 1];
    const [x1, y1] = points[i];
    if (Math.max(x0, x1) < box.left || Math.min(x0, x1) > box.right) continue;
    if (Math.max(y0, y1) < box.top || Math.min(y0, y1) > box.bottom) continue;
    count++;
  }
  return count;
}

/**
 * Places for labels, one each, in order; null where a curve has no points.
 *
 * Tries places along each curve, above and below it, and takes the one that covers least. The same input gives the same
 * places.
 *
 * @param taken what is there already: marks with their labels
 */
export function labelPlaces(
  wishes: readonly LabelWish[],
  size: { widthPx: number; heightPx: number; textPx: number },
  taken: readonly Rectangle[] = [],
): (LabelPlace | null)[] {
  const boxes: Rectangle[] = [...taken];
  return wishes.map(({ text, points }) => {
    if (points.length === 0) return null;
    const width = textWidthPx(text, size.textPx);
    let best: { cost: number; box: Rectangle } | undefined;
    for (let step = 0; step <= candidates; step++) {
      const [x, y] = points[Math.round(((points.length - 1) * step) / candidates)];
      for (const gap of [-8 - lineHeightPx, 8, -22 - lineHeightPx, 22]) {
        const left = Math.min(Math.max(x - width / 2, 4), size.widthPx - width - 4);
        const box = { left, top: y + gap, right: left + width, bottom: y + gap + lineHeightPx };
        const outside = Math.max(0, -box.top) + Math.max(0, box.bottom - size.heightPx + 2) + Math.max(0, -left);
        const covered = boxes.reduce((sum, other) => sum + overlapArea(box, other), 0);
        const crossed = wishes.reduce((sum, other) => sum + crossings(other.points, box), 0);
        const cost = outside * 40 + covered * 2 + crossed * 12 + (Math.abs(gap) > 30 ? 3 : 0);
        if (best === undefined || cost < best.cost - 1e-9) best = { cost, box };
      }
    }
    if (best === undefined) return null;
    boxes.push(best.box);
    return { x: best.box.left, baseline: best.box.top + 13 };
  });
}

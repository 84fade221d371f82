// A network of coils drawn as a tree of bumps: in series from left to right, side by side one under the other.

/** A coil, or coils in series or side by side. */
export type DrawnNetwork = string | { s: readonly DrawnNetwork[] } | { p: readonly DrawnNetwork[] };

export interface CoilTree {
  widthPx: number;
  heightPx: number;
  /** Wires as one path. */
  wires: string;
  /** Each coil's path. */
  coils: string[];
  /** Ends where the amplifier goes: plus at the left, minus at the right. */
  ends: { x: number; y: number }[];
}

const coilPx = 30;
const rowPx = 22;
const gapPx = 6;
const railPx = 8;
const endPx = 10;

interface Size {
  width: number;
  height: number;
}

function sizeOf(network: DrawnNetwork): Size {
  if (typeof network === 'string') return { width: coilPx, height: rowPx };
  if ('s' in network) {
    const sizes = network.s.map(sizeOf);
    const width = sizes.reduce((sum, size) => sum + size.width, 0) + gapPx * (sizes.length - 1);
    return { width, height: Math.max(...sizes.map(({ height }) => height)) };
  }
  const sizes = network.p.map(sizeOf);
  return {
    width: Math.max(...sizes.map(({ width }) => width)) + 2 * railPx,
    height: sizes.reduce((sum, size) => sum + size.height, 0),
  };
}

/** A coil of three bumps between its two ends. */
const bumps = (x: number, y: number) => `M${x + 4} ${y}a3.7 5.5 0 0 1 7.3 0a3.7 5.5 0 0 1 7.3 0a3.7 5.5 0 0 1 7.4 0`;

/** The drawing of a network; every group in it has a member. */
export function coilTree(network: DrawnNetwork): CoilTree {
  const wires: string[] = [];
  const coils: string[] = [];
  const draw = (part: DrawnNetwork, x: number, y: number): void => {
    if (typeof part === 'string') {
      wires.push(`M${x} ${y}h4M${x + coilPx - 4} ${y}h4`);
      coils.push(bumps(x, y));
      return;
    }
    if ('s' in part) {
      let at = x;
      for (const [n, inner] of part.s.entries()) {
        if (n > 0) wires.push(`M${at - gapPx} ${y}h${gapPx}`);
        draw(inner, at, y);
        at += sizeOf(inner).width + gapPx;
      }
      return;
    }
    const { width, height } = sizeOf(part);
    let top = y - height / 2;
    const middles: number[] = [];
    for (const inner of part.p) {
      const size = sizeOf(inner);
      const middle = top + size.height / 2;
      const left = x + (width - size.width) / 2;
      wires.push(`M${x} ${middle}H${left}M${left + size.width} ${middle}H${x + width}`);
      draw(inner, left, middle);
      middles.push(middle);
      top += size.height;
    }
    wires.push(
      `M${x} ${middles[0]}V${middles[middles.length - 1]}M${x + width} ${middles[0]}V${middles[middles.length - 1]}`,
    );
  };
  const { width, height } = sizeOf(network);
  const y = height / 2 + 2;
  draw(network, endPx, y);
  const widthPx = width + 2 * endPx;
  wires.push(`M2 ${y}h${endPx - 2}M${widthPx - endPx} ${y}h${endPx - 2}`);
  return {
    widthPx,
    heightPx: height + 4,
    wires: wires.join(''),
    coils,
    ends: [
      { x: 3, y },
      { x: widthPx - 3, y },
    ],
  };
}

// Where batteries, blocks and devices stand in the power river, and how the runs between them go: a tree from left to right.

export interface RiverNode {
  id: string;
  name: string;
  /** Under its name. */
  small: string;
}

export interface RiverEdge {
  id: string;
  from: string;
  to: string;
  /** Metal of the cable; not known: a thin broken line. */
  areaMm2?: number;
  /** Beside it. */
  label: string;
  fuses: readonly { id: string; bad: boolean }[];
  bad: boolean;
}

export interface PlacedNode extends RiverNode {
  x: number;
  y: number;
  widthPx: number;
}

export interface PlacedEdge extends RiverEdge {
  d: string;
  /** Line weight, px. */
  weightPx: number;
  capsules: { id: string; bad: boolean; x: number; y: number }[];
  /** Middle of its label, above the last straight piece. */
  text: { x: number; y: number };
}

export interface PowerRiver {
  widthPx: number;
  heightPx: number;
  nodes: PlacedNode[];
  edges: PlacedEdge[];
}

export const riverNodeHeightPx = 46;
const rowPx = 66;
export const capsuleWidthPx = 42;

/** Line weight follows the area's root, so that the drawn cable is as wide as the real one is thick. */
export const runWeightPx = (areaMm2: number | undefined): number =>
  areaMm2 === undefined ? 2 : Math.min(18, Math.max(2, 2.4 * Math.sqrt(areaMm2)));

/**
 * The river at a width, px. Nodes that nothing feeds stand at the left; each other node stands one column right of what
 * feeds it. Runs that close a circle, or that end at nothing, are left out: they have no place in a tree.
 *
 * @param widthPx 280 or more
 */
export function powerRiver(nodes: readonly RiverNode[], edges: readonly RiverEdge[], widthPx: number): PowerRiver {
  const known = new Set(nodes.map(({ id }) => id));
  const feeding = new Map<string, RiverEdge>();
  for (const edge of edges) {
    const sound = known.has(edge.from) && known.has(edge.to) && edge.from !== edge.to;
    if (sound && !feeding.has(edge.to) && !feeds(feeding, edge.to, edge.from)) feeding.set(edge.to, edge);
  }
  const childrenOf = (id: string) => nodes.filter((node) => feeding.get(node.id)?.from === id);
  const depths = new Map<string, number>();
  const rows = new Map<string, number>();
  let row = 0;
  const visit = (node: RiverNode, depth: number): number => {
    depths.set(node.id, depth);
    const children = childrenOf(node.id).map((child) => visit(child, depth + 1));
    const at = children.length === 0 ? row++ : (children[0] + children[children.length - 1]) / 2;
    rows.set(node.id, at);
    return at;
  };
  for (const node of nodes) if (!feeding.has(node.id)) visit(node, 0);
  const deepest = Math.max(1, ...depths.values());
  const nodeWidth = Math.min(84, Math.floor(widthPx / (deepest + 1)) - capsuleWidthPx - 4);
  const placed = nodes.map((node): PlacedNode => {
    const share = (depths.get(node.id) ?? 0) / deepest;
    return {
      ...node,
      x: nodeWidth / 2 + 1 + share * (widthPx - nodeWidth - 2),
      y: rowPx * ((rows.get(node.id) ?? 0) + 0.5),
      widthPx: nodeWidth,
    };
  });
  const at = new Map(placed.map((node) => [node.id, node]));
  const drawn = [...feeding.values()].map((edge) => placedEdge(edge, at.get(edge.from)!, at.get(edge.to)!));
  return { widthPx, heightPx: Math.max(1, row) * rowPx, nodes: placed, edges: drawn };
}

/** Whether `above` is fed, over others, by `id`. */
function feeds(feeding: ReadonlyMap<string, RiverEdge>, id: string, above: string): boolean {
  for (let at: string | undefined = above; at !== undefined; at = feeding.get(at)?.from) if (at === id) return true;
  return false;
}

function placedEdge(edge: RiverEdge, from: PlacedNode, to: PlacedNode): PlacedEdge {
  const start = from.x + from.widthPx / 2;
  const end = to.x - to.widthPx / 2;
  const bend = Math.min(26, 0.2 * (end - start));
  const straight = Math.abs(from.y - to.y) < 1;
  const d = straight ? `M${start} ${from.y}H${end}` : `M${start} ${from.y}h4L${start + bend} ${to.y}H${end}`;
  const flatStart = straight ? start : start + bend;
  const capsules = edge.fuses.map(({ id, bad }, n) => ({
    id,
    bad,
    x: flatStart + capsuleWidthPx / 2 + 2 + n * (capsuleWidthPx + 4),
    y: to.y,
  }));
  const last = capsules.at(-1);
  const textStart = last === undefined ? flatStart : last.x + capsuleWidthPx / 2;
  const weightPx = runWeightPx(edge.areaMm2);
  return {
    ...edge,
    d,
    weightPx,
    capsules,
    text: { x: (textStart + end) / 2, y: to.y - weightPx / 2 - 6 },
  };
}

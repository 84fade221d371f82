// What a box holds inside its panels, and what a driver takes of it.

/** Outside measures, m, above 0; all panels alike. */
export type BoxShape =
  | { shape: 'cuboid'; widthM: number; heightM: number; depthM: number }
  | { shape: 'wedge'; widthM: number; heightM: number; depthTopM: number; depthBottomM: number }
  | { shape: 'cylinder'; diameterM: number; lengthM: number };

/**
 * Volume inside the panels, m3, or null where the panels leave none.
 *
 * @param panelM  thickness, 0 or more
 * Source: geometry; a wedge counts as its mean depth.
 */
export function insideM3(box: BoxShape, panelM: number): number | null {
  const inside = (outsideM: number) => outsideM - 2 * panelM;
  if (box.shape === 'cylinder') {
    const sides = [inside(box.diameterM), inside(box.lengthM)];
    return sides.every((side) => side > 0) ? (Math.PI / 4) * sides[0] ** 2 * sides[1] : null;
  }
  const depths = box.shape === 'cuboid' ? [box.depthM] : [box.depthTopM, box.depthBottomM];
  const insides = depths.map(inside);
  const sides = [inside(box.widthM), inside(box.heightM)];
  if (![...sides, ...insides].every((side) => side > 0)) return null;
  return (sides[0] * sides[1] * insides.reduce((sum, depth) => sum + depth, 0)) / insides.length;
}

/**
 * Volume of a driver behind its flange, m3: a frustum from basket to magnet and the magnet as a cylinder. An upper bound,
 * since a basket is open: 70 % is usual.
 *
 * @param depthM  whole depth, magnet included
 * Source: geometry.
 */
export function driverVolumeM3(driver: {
  basketM: number;
  magnetM: number;
  depthM: number;
  magnetDepthM: number;
}): number {
  const { basketM, magnetM, depthM, magnetDepthM } = driver;
  const frustum = basketM ** 2 + basketM * magnetM + magnetM ** 2;
  return (Math.PI / 12) * (depthM - magnetDepthM) * frustum + (Math.PI / 4) * magnetM ** 2 * magnetDepthM;
}

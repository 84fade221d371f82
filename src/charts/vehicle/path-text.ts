// Small pieces of SVG path text, rounded so that the same drawing is always the same text.

export const rounded = (value: number): number => +value.toFixed(1);

export function rectanglePath(x: number, y: number, width: number, height: number, radius = 0): string {
  const r = Math.min(radius, width / 2, height / 2);
  if (r <= 0) return `M${rounded(x)} ${rounded(y)}h${rounded(width)}v${rounded(height)}h${rounded(-width)}z`;
  const corner = (dx: number, dy: number) => `a${r} ${r} 0 0 1 ${rounded(dx)} ${rounded(dy)}`;
  return [
    `M${rounded(x + r)} ${rounded(y)}h${rounded(width - 2 * r)}${corner(r, r)}`,
    `v${rounded(height - 2 * r)}${corner(-r, r)}h${rounded(2 * r - width)}${corner(-r, -r)}`,
    `v${rounded(2 * r - height)}${corner(r, -r)}z`,
  ].join('');
}

export function circlePath(x: number, y: number, radius: number): string {
  const r = rounded(radius);
  return `M${rounded(x - radius)} ${rounded(y)}a${r} ${r} 0 1 0 ${rounded(2 * radius)} 0a${r} ${r} 0 1 0 ${rounded(-2 * radius)} 0z`;
}

// Small pieces of SVG text, rounded so that the same chart is always the same text.

export function escaped(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}

/** A length or place, to a hundredth of a pixel. */
export const px = (value: number): string => String(Math.round(value * 100) / 100);

/** An element; attributes without a value are left out. */
export function element(name: string, attributes: Record<string, string | number | undefined>, content = ''): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? px(value) : escaped(String(value))}"`)
    .join('');
  return content === '' ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

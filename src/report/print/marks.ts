// What a printed page is made of. All measures in millimetres from the top left corner, so that 1 mm here is 1 mm on paper.

export interface RectMark {
  kind: 'rect';
  x: number;
  y: number;
  width: number;
  height: number;
}

/** One line of text that is exactly `widthMm` wide, whatever the font, so that it never leaves its place. */
export interface TextMark {
  kind: 'text';
  x: number;
  /** Of the line that the letters stand on. */
  baseline: number;
  sizeMm: number;
  widthMm: number;
  text: string;
  bold: boolean;
}

export type Mark =
  /** An outline where something is cut. */
  | (RectMark & { paint: 'cut' })
  /** A filled area. */
  | (RectMark & { paint: 'ink' })
  | TextMark;

export interface PrintedPage {
  widthMm: number;
  heightMm: number;
  marks: Mark[];
}

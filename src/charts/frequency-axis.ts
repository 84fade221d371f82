// The logarithmic frequency axis that every chart shares: where a frequency lies, which lines and labels it carries.

const labelledHz = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];
const labelledNarrowHz = [20, 100, 1000, 10_000];
/** Under this width, px, only a label a decade has room. */
const narrowPx = 430;

export interface FrequencyAxis {
  /** Distance from the left edge of the plot, px. */
  xOf: (fHz: number) => number;
  /** Every step of 1 to 9 in each decade, within the range. */
  lines: number[];
  /** Frequencies that carry a label, with it; the first one has the unit. */
  labels: { fHz: number; text: string }[];
}

/**
 * The axis from `fromHz` to `toHz` over `widthPx`.
 *
 * @throws RangeError unless 0 < fromHz < toHz and widthPx > 0: the caller's mistake
 */
export function frequencyAxis(fromHz: number, toHz: number, widthPx: number): FrequencyAxis {
  if (!(fromHz > 0 && toHz > fromHz && widthPx > 0)) {
    throw new RangeError(`an axis needs 0 < fromHz < toHz and widthPx > 0, got ${fromHz}..${toHz} Hz, ${widthPx} px`);
  }
  const inside = (fHz: number) => fHz >= fromHz * (1 - 1e-9) && fHz <= toHz * (1 + 1e-9);
  const lines: number[] = [];
  for (let decade = Math.floor(Math.log10(fromHz)); decade <= Math.log10(toHz); decade++) {
    for (let step = 1; step <= 9; step++) {
      const fHz = step * 10 ** decade;
      if (inside(fHz)) lines.push(fHz);
    }
  }
  return {
    xOf: (fHz) => (widthPx * Math.log(fHz / fromHz)) / Math.log(toHz / fromHz),
    lines,
    labels: (widthPx < narrowPx ? labelledNarrowHz : labelledHz).filter(inside).map((fHz, index) => {
      const text = fHz >= 1000 ? `${fHz / 1000}k` : String(fHz);
      return { fHz, text: index === 0 ? `${text} Hz` : text };
    }),
  };
}

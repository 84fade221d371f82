// Numbers as people's files have them: decimal points or commas, thousands set apart, columns set apart by anything.

/** What the rows of one file together tell about how to read each of them. */
export interface NumberStyle {
  /** A point stands in some number, so commas set columns (or thousands) apart. */
  pointsSeen: boolean;
  /** Rows of exactly three whole numbers between commas are three columns, since a third one carries a sign. */
  threeColumns: boolean;
}

const plainNumber = /^[+-]?(\d+\.?\d*|\.\d+)([ed][+-]?\d+)?$/i;
const groupedByComma = /^[+-]?\d{1,3}(,\d{3})+(\.\d*)?$/;
const groupedByPoint = /^[+-]?\d{1,3}(\.\d{3})+,\d*$/;

/** How the numbers of a file are written, from its rows (lines that begin with a number, as `tidyRow` leaves them). */
export function numberStyle(rows: readonly string[]): NumberStyle {
  const parts = rows.map((row) => row.split(','));
  const signedThird = parts.some((part) => part.length === 3 && /^[+-]/.test(part[2]));
  return {
    pointsSeen: rows.some((row) => /\d\.|\.\d/.test(row.replace(/\d{1,3}(\.\d{3})+,\d/g, ''))),
    threeColumns: signedThird && parts.every((part) => part.length === 3),
  };
}

/**
 * A line without what is no number: quotes, units, a comment at its end; commas with a blank beside them become
 * semicolons, which no number contains.
 */
export function tidyRow(line: string): string {
  return line
    .replace(/(#|\/\/).*$/, '')
    .replace(/["']/g, '')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/(?<=[\d.,\s])(k?Hz|dB|deg|°)(?![a-z])/gi, ' ')
    .replace(/,\s+|\s+,/g, ';')
    .replace(/[,;\s]+$/, '')
    .trim();
}

/**
 * The numbers a row begins with; what follows the first thing that is no number is left aside.
 *
 * @param row         as `tidyRow` leaves it
 * @param nearDb      the deviation of the row before: where commas allow two readings, the nearer one is taken
 * @returns as many numbers as were found, all finite; `unsure` if commas allowed two readings
 */
export function rowNumbers(row: string, style: NumberStyle, nearDb: number): { numbers: number[]; unsure: boolean } {
  const fields = row.split(/[\s;]+/).filter((field) => field !== '');
  if (fields.length > 1) {
    const numbers = leadingNumbers(fields.map((field) => numberFrom(field, style)));
    if (numbers.length > 1) return { numbers, unsure: false };
  }
  const parts = (fields[0] ?? '').split(',');
  if (style.pointsSeen || style.threeColumns || parts.length === 2) {
    const all = fields.flatMap((field) => field.split(','));
    return { numbers: leadingNumbers(all.map((part) => numberFrom(part, style))), unsure: false };
  }
  if (parts.length === 3) return threeParts(parts, nearDb);
  if (parts.length % 2 === 1) return { numbers: [], unsure: false };
  const pairs = Array.from({ length: parts.length / 2 }, (_, i) => joinedNumber(parts[2 * i], parts[2 * i + 1]));
  return { numbers: leadingNumbers(pairs), unsure: false };
}

/** Frequency and deviation, one of which has a decimal comma: "31,5,2" or "20,0,3". */
function threeParts(parts: string[], nearDb: number): { numbers: number[]; unsure: boolean } {
  const first = leadingNumbers([joinedNumber(parts[0], parts[1]), numberFrom(parts[2])]);
  const second = leadingNumbers([numberFrom(parts[0]), joinedNumber(parts[1], parts[2])]);
  if (first.length < 2 || second.length < 2) return { numbers: first.length === 2 ? first : second, unsure: false };
  const nearer = Math.abs(first[1] - nearDb) < Math.abs(second[1] - nearDb);
  return { numbers: nearer ? first : second, unsure: true };
}

/** "0" and "3" as 0.3; the second part has no sign of its own. */
function joinedNumber(whole: string, decimals: string): number | undefined {
  return /^\d/.test(decimals) && /^[+-]?\d*$/.test(whole) ? numberFrom(`${whole}.${decimals}`) : undefined;
}

function numberFrom(field: string, style?: NumberStyle): number | undefined {
  let text = field;
  if (groupedByPoint.test(text)) text = text.replaceAll('.', '').replace(',', '.');
  else if (groupedByComma.test(text) && style?.pointsSeen) text = text.replaceAll(',', '');
  else text = text.replace(',', '.');
  if (!plainNumber.test(text)) return undefined;
  const value = Number(text.replace(/d/i, 'e'));
  return Number.isFinite(value) ? value : undefined;
}

function leadingNumbers(values: (number | undefined)[]): number[] {
  const end = values.indexOf(undefined);
  return (end < 0 ? values : values.slice(0, end)) as number[];
}

// Text set into lines of a given width.

/**
 * Lines of at most `width` characters, broken at spaces; a longer word stands alone on its line. Line ends in `text` stay,
 * and so do the spaces before a paragraph.
 *
 * @param hanging how many spaces start every line but the first of each paragraph
 */
export function wrapped(text: string, width: number, hanging = 0): string[] {
  const lines: string[] = [];
  for (const paragraph of text.split('\n')) {
    let line = /^ */.exec(paragraph)?.[0] ?? '';
    let begun = false;
    for (const word of paragraph.slice(line.length).split(' ')) {
      if (begun && line.length + 1 + word.length > width) {
        lines.push(line);
        line = ' '.repeat(hanging) + word;
      } else line += begun ? ` ${word}` : word;
      begun = true;
    }
    lines.push(line);
  }
  return lines;
}

/** Two columns: a narrow one as wide as its widest cell (up to `leftMax`), and text wrapped beside it. */
export function twoColumns(rows: [string, string][], width: number, leftMax = 30): string[] {
  const left = Math.min(leftMax, Math.max(0, ...rows.map(([cell]) => cell.length))) + 2;
  return rows.flatMap(([cell, text]) => {
    const body = wrapped(text, Math.max(width - left - 2, 20));
    const wide = cell.length + 2 > left;
    const first = wide ? [`  ${cell}`] : [];
    return [
      ...first,
      ...body.map((line, index) => `  ${(index === 0 && !wide ? cell : '').padEnd(left)}${line}`.trimEnd()),
    ];
  });
}

// The known word that a mistyped one most likely meant.

/** Edit distance with swaps of neighbours (optimal string alignment; Damerau 1964): insert, delete, replace, swap cost 1. */
export function editDistance(a: string, b: string): number {
  const rows: number[][] = [];
  for (let i = 0; i <= a.length; i++) {
    const row: number[] = [i];
    for (let j = 1; j <= b.length; j++) {
      if (i === 0) {
        row.push(j);
        continue;
      }
      const above = rows[i - 1];
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(above[j] + 1, row[j - 1] + 1, above[j - 1] + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, rows[i - 2][j - 2] + 1);
      row.push(least);
    }
    rows.push(row);
  }
  return rows[a.length][b.length];
}

/** The nearest of `words` to `typed`, or null when none is near enough to be worth saying (more than a third is wrong). */
export function nearestWord(typed: string, words: readonly string[]): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const word of words) {
    const distance = word.startsWith(typed) && typed.length >= 2 ? 0.5 : editDistance(typed.toLowerCase(), word);
    if (distance < least) {
      least = distance;
      best = word;
    }
  }
  return best !== null && least <= Math.max(1, Math.ceil(best.length / 3)) ? best : null;
}

// Numbers and names in the sentences of findings.

/** A number to three figures, without what they do not need: 12, 0.05, 1240. */
export function said(value: number): string {
  if (Math.abs(value) >= 1000) return String(Math.round(value));
  return String(Number(value.toPrecision(3)));
}

/** A part by its name, with its id so that it can be found. */
export function called({ id, name }: { id: string; name?: string }): string {
  return name === undefined ? id : `${name} (${id})`;
}

/** "A, B and C". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  const shown = words.length > 6 ? [...words.slice(0, 6), `${words.length - 6} more`] : words;
  return `${shown.slice(0, -1).join(', ')} and ${shown[shown.length - 1]}`;
}

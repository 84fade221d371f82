// Numbers and names in the sentences of findings.
import { allListed } from '../../plan/words.ts';

/** A number to three figures, without what they do not need: 12, 0.05, 1240. */
export function said(value: number): string {
  if (Math.abs(value) >= 1000) return String(Math.round(value));
  return String(Number(value.toPrecision(3)));
}

/** A part by its name, with its id so that it can be found. */
export function called({ id, name }: { id: string; name?: string }): string {
  return name === undefined ? id : `${name} (${id})`;
}

/** "1 point", "2 points". */
export const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** "A, B and C"; of many the first six, and how many more there are. */
export function listed(words: readonly string[]): string {
  return allListed(words.length > 6 ? [...words.slice(0, 6), `${words.length - 6} more`] : words);
}

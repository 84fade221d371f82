// Names of parts in a sentence.

/** "A, B and C": every one of them. */
export function allListed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

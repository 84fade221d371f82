// The same thing several times.

/** `times` copies of what `make` gives, in order; `make` gets the index. */
export function repeated<T>(times: number, make: (index: number) => T[]): T[] {
  return Array.from({ length: times }, (_, index) => make(index)).flat();
}

// What the maker of test tracks says to the page.

export type MakerReport =
  | { say: 'progress'; share: number }
  | { say: 'made'; channels: Float32Array<ArrayBuffer>[]; wav: ArrayBuffer }
  | { say: 'failed'; message: string };

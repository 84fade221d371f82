// What a driver of a kind can do at all, whatever its channel sends it: where its own response falls.

export interface DriverKind {
  /** Range of the resonance below which it falls by 12 dB per octave, Hz. */
  resonanceHz: readonly [number, number];
  /** Range of where its upper end begins to fall, Hz. */
  upperHz: readonly [number, number];
}

const kinds: [RegExp, DriverKind][] = [
  [/tweet|treble|super/i, { resonanceHz: [500, 2500], upperHz: [12_000, 40_000] }],
  [/coax|full|wide|two-?way|component/i, { resonanceHz: [35, 250], upperHz: [9000, 40_000] }],
  [/sub/i, { resonanceHz: [15, 80], upperHz: [150, 3000] }],
  [/bass|woofer|door|low/i, { resonanceHz: [28, 140], upperHz: [900, 12_000] }],
  [/mid|centre|center/i, { resonanceHz: [50, 500], upperHz: [2500, 25_000] }],
];

const ANY: DriverKind = { resonanceHz: [15, 1500], upperHz: [500, 40_000] };

/**
 * The range of a kind, by the words in its name; a kind that says nothing may be anything.
 *
 * Source: published sheets of car drivers; ranges are wide on purpose.
 */
export function driverKind(kind: string | undefined): DriverKind {
  return kinds.find(([words]) => kind !== undefined && words.test(kind))?.[1] ?? ANY;
}

// Decibels and back, in pairs: amplitudes by 20 log10, powers by 10 log10.

/** 20 log10 of an amplitude ratio > 0; its inverse is `amplitudeFromDb`. Zero gives -Infinity: floor it first. */
export function dbFromAmplitude(ratio: number): number {
  return 20 * Math.log10(ratio);
}

/** Amplitude ratio of a level in dB (20 log); its inverse is `dbFromAmplitude`. */
export function amplitudeFromDb(db: number): number {
  return 10 ** (db / 20);
}

/** 10 log10 of a power ratio > 0; its inverse is `powerFromDb`. Zero gives -Infinity: floor it first. */
export function dbFromPower(ratio: number): number {
  return 10 * Math.log10(ratio);
}

/** Power ratio of a level in dB (10 log); its inverse is `dbFromPower`. */
export function powerFromDb(db: number): number {
  return 10 ** (db / 10);
}

// The sensitivity that the heading of a calibration file may state.

export interface Sensitivity {
  value: number;
  unit: 'mV/Pa' | 'dB re 1 V/Pa' | 'dBFS' | 'dB';
}

const stated =
  /([+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+))\s*(mV\s*\/\s*Pa|dB\s*re\.?\s*:?\s*1?\s*V\s*\/\s*Pa|dBV\s*\/\s*Pa|dBV|dBFS|dB)(?![a-z])/i;

/** The sensitivity in a line of words, if it is a number with a unit behind the word; else undefined. */
export function sensitivityIn(words: string): Sensitivity | undefined {
  const from = words.search(/sens/i);
  const match = from < 0 ? null : stated.exec(words.slice(from).replace(/\u2212/g, '-'));
  if (!match) return undefined;
  const unit = match[2].toLowerCase().replace(/\s/g, '');
  return {
    value: Number(match[1].replace(',', '.')),
    unit: unit === 'mv/pa' ? 'mV/Pa' : unit === 'db' ? 'dB' : unit === 'dbfs' ? 'dBFS' : 'dB re 1 V/Pa',
  };
}

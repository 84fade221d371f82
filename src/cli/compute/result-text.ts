// Results of a calculation as a person reads them: names in words, numbers with their units.
import type { TextStyle } from '../output.ts';
import { twoColumns, wrapped } from '../wrap.ts';

/** Units by the ending of a name, as they are written; the longest ending that fits counts. */
const units: Record<string, string> = {
  Ohm: 'ohm',
  Volts: 'V',
  V: 'V',
  A: 'A',
  W: 'W',
  J: 'J',
  Ah: 'Ah',
  Pct: '%',
  Db: 'dB',
  Dba: 'dBA',
  Dbfs: 'dBFS',
  Hz: 'Hz',
  Mm2: 'mm2',
  Mm: 'mm',
  M: 'm',
  Cm2: 'cm2',
  Cm: 'cm',
  L: 'L',
  G: 'g',
  Kg: 'kg',
  N: 'N',
  Ms: 'ms',
  S: 's',
  Mps: 'm/s',
  Mh: 'mH',
  Uv: 'uV',
  Uf: 'uF',
  Deg: 'deg',
  C: 'C',
  K: 'K',
  Minutes: 'min',
};

/** Names that are a unit by themselves, and what they measure. */
const whole: Record<string, [string, string]> = {
  ohm: ['resistance', 'ohm'],
  ohms: ['loads', 'ohm'],
  watt: ['power', 'W'],
  volt: ['voltage', 'V'],
  ampere: ['current', 'A'],
  minutes: ['time', 'min'],
  hours: ['time', 'h'],
  db: ['level', 'dB'],
  dba: ['level', 'dBA'],
  dBu: ['level', 'dBu'],
  milliOhm: ['resistance', 'mOhm'],
  ohmPerM: ['resistance per metre', 'ohm'],
  reAt20: ['resistance at 20 C', 'ohm'],
  twa8hDba: ['eight-hour average', 'dBA'],
  noiseUv: ['noise', 'uV'],
  noiseUvAtDriver: ['noise at driver', 'uV'],
};

/** `dropV` as `['drop', 'V']`, `needsOwnFuse` as `['needs own fuse', '']`. */
export function nameAndUnit(name: string): [string, string] {
  const known = Object.hasOwn(whole, name) ? whole[name] : undefined;
  if (known !== undefined) return known;
  const suffix = Object.keys(units)
    .filter((ending) => name.endsWith(ending) && name.length > ending.length)
    .filter((ending) => /[a-z0-9]$/.test(name.slice(0, -ending.length)))
    .sort((a, b) => b.length - a.length)[0];
  const stem = suffix === undefined ? name : name.slice(0, -suffix.length);
  const words = stem.replace(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase();
  return [words, suffix === undefined ? '' : units[suffix]];
}

/** Text from outside, safe on a terminal and short enough for a table. */
function safeText(text: string, most = 40): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not reach a terminal
  const shown = text.replace(/[\u0000-\u001f\u007f-\u009f]/g, '?');
  return shown.length > most ? `${shown.slice(0, most - 3)}...` : shown;
}

/** A number with four digits that carry, and no exponent where it can be read without. */
export function numberText(value: number): string {
  const size = Math.abs(value);
  if (value === 0) return '0';
  if (size < 1e-5 || size >= 1e9) return value.toExponential(3);
  return String(size >= 1000 ? Math.round(value) : Number(value.toPrecision(4)));
}

function scalarText(value: unknown): string {
  if (typeof value === 'number') return numberText(value);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (value === null || value === undefined) return 'none';
  return safeText(String(value));
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const listMost = 60;

function listText(values: readonly unknown[]): string {
  const shown = values.slice(0, listMost).map((value) => (isRecord(value) ? recordText(value) : scalarText(value)));
  const more = values.length > listMost ? [`and ${values.length - listMost} more`] : [];
  return values.length === 0 ? 'none' : [...shown, ...more].join(values.some(isRecord) ? '\n' : ', ');
}

/** Values by names that came from outside, such as coils: the names stay as they are. */
function namedText(named: Record<string, unknown>): string {
  const entries = Object.entries(named);
  const shown = entries.slice(0, listMost).map(([name, value]) => `${safeText(name)} ${scalarText(value)}`);
  const more = entries.length > listMost ? [`and ${entries.length - listMost} more`] : [];
  return [...shown, ...more].join(', ');
}

function recordText(record: Record<string, unknown>): string {
  return Object.entries(record)
    .map(([key, value]) => {
      const [words, unit] = nameAndUnit(key);
      return `${words} ${withUnit(Array.isArray(value) ? listText(value) : scalarText(value), unit)}`;
    })
    .join(', ');
}

const withUnit = (text: string, unit: string) => (unit === '' || text === 'none' ? text : `${text} ${unit}`);

/** One row per result; what is inside a result stands beside its name. */
export function resultText(
  heading: string,
  results: Record<string, unknown>,
  notes: readonly [string, string][],
  style: TextStyle,
): string {
  const rows = Object.entries(results).map(([name, value]): [string, string] => {
    const [words, unit] = nameAndUnit(name);
    const text = Array.isArray(value) ? listText(value) : isRecord(value) ? namedText(value) : scalarText(value);
    return [words, withUnit(text, unit)];
  });
  const caution = notes.flatMap(([word, text]) => ['', ...wrapped(`${word}: ${text}`, style.width, word.length + 2)]);
  return `${[...wrapped(heading, style.width), '', ...twoColumns(rows, style.width), ...caution].join('\n')}\n`;
}

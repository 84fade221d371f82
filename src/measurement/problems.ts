// What can be wrong with a recording, how bad that is, and what it forbids.

/** Each code states what is wrong, as a fact. */
export const problemCodes = [
  'clipped-digital',
  'clipped-analogue',
  'agc',
  'gated',
  'gap',
  'zero-fill',
  'rate-mismatch',
  'clock-drift',
  'low-snr',
  'noise-changed',
  'band-limited',
  'side-mixed',
  'truncated',
  'wrong-track',
  'no-markers',
  'silent',
] as const;

export type ProblemCode = (typeof problemCodes)[number];

/** stop: no result is shown; limit: some results are withheld; note: worth knowing. */
export type Severity = 'stop' | 'limit' | 'note';

export interface Problem {
  code: ProblemCode;
  severity: Severity;
  /** What is wrong, with its numbers, in plain words. */
  message: string;
  /** What the person can do about it. */
  mend: string;
  /** Where in the recording, seconds from its start. */
  atS?: number;
  /** The evidence: numbers with their unit in the name. */
  values?: Record<string, number>;
}

// What each problem of a recording forbids, and how bad that makes it for the track at hand.
import type { Finding } from './checks/take-context.ts';
import type { Problem, ProblemCode, Severity } from './problems.ts';

export type Result = 'response' | 'arrival' | 'polarity' | 'distortion' | 'level';
type Permission = 'yes' | 'limit' | 'no';

/** Columns: response, arrival, polarity, distortion, level. */
const TABLE: Record<ProblemCode, [Permission, Permission, Permission, Permission, Permission]> = {
  'clipped-digital': ['limit', 'yes', 'yes', 'no', 'no'],
  'clipped-analogue': ['limit', 'yes', 'yes', 'no', 'no'],
  agc: ['limit', 'yes', 'yes', 'no', 'no'],
  gated: ['no', 'no', 'no', 'no', 'no'],
  'band-limited': ['limit', 'limit', 'limit', 'limit', 'limit'],
  gap: ['no', 'no', 'no', 'no', 'yes'],
  'zero-fill': ['no', 'no', 'no', 'no', 'yes'],
  'low-snr': ['limit', 'no', 'no', 'limit', 'limit'],
  truncated: ['no', 'no', 'no', 'no', 'no'],
  'wrong-track': ['no', 'no', 'no', 'no', 'no'],
  silent: ['no', 'no', 'no', 'no', 'no'],
  'no-markers': ['limit', 'no', 'limit', 'limit', 'yes'],
  'rate-mismatch': ['yes', 'yes', 'yes', 'yes', 'yes'],
  'noise-changed': ['yes', 'yes', 'yes', 'yes', 'yes'],
  'clock-drift': ['yes', 'yes', 'yes', 'yes', 'yes'],
  'side-mixed': ['no', 'no', 'no', 'no', 'yes'],
};

const RESULTS: Result[] = ['response', 'arrival', 'polarity', 'distortion', 'level'];

/** The results that a kind of track is made for. */
const PURPOSES: Record<string, Result[]> = {
  sweep: ['response', 'arrival', 'polarity', 'distortion'],
  near: ['response', 'polarity'],
  steps: ['distortion'],
  pair: ['arrival'],
  polarity: ['polarity'],
  noise: ['level'],
  tone: ['level', 'distortion'],
  ladder: ['level', 'distortion'],
  bursts: ['level'],
};

/** What `code` allows of `result`; an unsteady clock is the one problem whose finding says more than its code. */
function permission(finding: Finding, result: Result): Permission {
  if (finding.code === 'clock-drift' && finding.severity === 'limit' && result === 'arrival') return 'no';
  return TABLE[finding.code][RESULTS.indexOf(result)];
}

/** stop where nothing that the track was made for is left, limit where some falls away, note where nothing does. */
export function severityOf(finding: Finding, trackKind: string): Severity {
  if (finding.severity) return finding.severity;
  const left = (PURPOSES[trackKind] ?? RESULTS).map((result) => permission(finding, result));
  if (left.every((p) => p === 'no')) return 'stop';
  return RESULTS.every((result) => permission(finding, result) === 'yes') ? 'note' : 'limit';
}

/** The finding as the problem that is reported. */
export function problemFrom(finding: Finding, trackKind: string): Problem {
  return { ...finding, severity: severityOf(finding, trackKind) } satisfies Problem;
}

/** The first finding that forbids `result`, or null where it may be shown. */
export function forbids(findings: Finding[], result: Result): Finding | null {
  return findings.find((finding) => permission(finding, result) === 'no') ?? null;
}

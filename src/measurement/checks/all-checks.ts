// Every check that needs no reading of the stimuli, in the order in which they are told.
import type { ProblemCode } from '../problems.ts';
import { bandLimited } from './band-limit.ts';
import { clippedAnalogue, clippedDigital } from './clipping.ts';
import { clockDrift, missingSamples, rateMismatch, zeroFilled } from './clock.ts';
import { noMarkers, silent, truncated, wrongTrack } from './completeness.ts';
import { changingGain, gated, noiseChanged, suppressed } from './gain.ts';
import { missingSound } from './missing-sound.ts';
import type { Check, Finding, TakeContext } from './take-context.ts';

/** One of these settles the matter: what the others would say of such a recording means nothing. */
const settling: Check[] = [silent, wrongTrack, truncated];

const others: Check[] = [
  noMarkers,
  rateMismatch,
  missingSamples,
  clockDrift,
  zeroFilled,
  missingSound,
  clippedDigital,
  clippedAnalogue,
  changingGain,
  gated,
  bandLimited,
  noiseChanged,
];

const GATE_EXPLAINS = new Set<ProblemCode>(['noise-changed', 'zero-fill']);

/** What is wrong with a recording, before anything of the car is read. */
export function checkedRecording(context: TakeContext): Finding[] {
  for (const check of settling) {
    const finding = check(context);
    if (finding) {
      const rate = rateMismatch(context);
      return rate ? [finding, rate] : [finding];
    }
  }
  const findings = others.flatMap((check) => check(context) ?? []);
  // A gate explains a background that comes and goes, and sound that is shut off.
  if (findings.some(({ code }) => code === 'gated')) return findings.filter(({ code }) => !GATE_EXPLAINS.has(code));
  const hidden = suppressed(context);
  if (hidden) findings.push(hidden);
  return findings;
}

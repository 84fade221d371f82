// Every check that needs no reading of the stimuli, in the order in which they are told.
import { bandLimited } from './band-limit.ts';
import { clippedAnalogue, clippedDigital } from './clipping.ts';
import { clockDrift, missingSamples, rateMismatch, zeroFilled } from './clock.ts';
import { noMarkers, silent, truncated, wrongTrack } from './completeness.ts';
import { changingGain, gated, noiseChanged, suppressed } from './gain.ts';
import type { Check, Finding, TakeContext } from './take-context.ts';

/** One of these settles the matter: what the others would say of such a recording means nothing. */
const settling: Check[] = [silent, wrongTrack, truncated];

const others: Check[] = [
  noMarkers,
  rateMismatch,
  missingSamples,
  clockDrift,
  zeroFilled,
  clippedDigital,
  clippedAnalogue,
  changingGain,
  gated,
  bandLimited,
  noiseChanged,
];

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
  // A gate explains a background that comes and goes.
  if (findings.some(({ code }) => code === 'gated')) return findings.filter(({ code }) => code !== 'noise-changed');
  const hidden = suppressed(context);
  if (hidden) findings.push(hidden);
  return findings;
}

// The recorder's clock against the player's: where each track sample falls in the recording.
import { linearChirp } from '../signals/chirp.ts';
import type { Recording } from '../signals/recording.ts';
import type { MatchedMarker } from './marker-match.ts';
import { type ChirpKind, chirpCorrelation, relativeDelay } from './marker-search.ts';

/** The markers' places measured against each other, and what a straight line makes of them. */
export interface ClockFit {
  /** Fine position of each matched marker, samples; comparable within one class only. */
  positions: number[];
  classes: number[];
  /** Whole-track clock: recorded samples per track sample. */
  slope: number | null;
  slopeSigma: number | null;
  /** Clock inside the groups alone. */
  slopeInside: number | null;
  slopeInsideSigma: number | null;
  /** Position minus line, samples, by marker. */
  residuals: number[];
  /** Median similarity of chirps of one class, 0 .. 1. */
  similarity: number;
}

const BEFORE_S = 0.005;
const AFTER_S = 0.01;

/**
 * Positions of the markers relative to one another by cross-correlating what was *received*, and the clock from them.
 *
 * Taking each marker's own correlation peak slips by whole periods of its carrier; received chirps of one kind and side
 * went through the same car, so their cross-correlation does not.
 *
 * Source: C. H. Knapp, G. C. Carter, IEEE Trans. ASSP 24(4), 1976 (delay between received signals); least squares line
 *   with one offset per class.
 */
export function clockFit(
  recording: Recording,
  channel: number,
  kinds: ChirpKind[],
  matched: MatchedMarker[],
  effectiveRateHz: number,
): ClockFit {
  const before = Math.round(BEFORE_S * effectiveRateHz);
  const after = Math.round(AFTER_S * effectiveRateHz);
  const chirps = kinds.map((kind) => linearChirp({ ...kind, levelDbfs: 0 }, effectiveRateHz));
  const sides = ['left', 'right', 'both'];
  const classes = matched.map(({ marker }) => marker.kind * 3 + sides.indexOf(marker.side));
  const positions: number[] = matched.map(({ peak }) => peak.position);
  const similarities: number[] = [];
  for (const label of new Set(classes)) {
    const members = matched.flatMap((_, i) => (classes[i] === label ? [i] : []));
    const best = members.reduce((a, b) => (matched[b].peak.score > matched[a].peak.score ? b : a));
    const correlations = new Map(
      members.map((i) => [
        i,
        chirpCorrelation(
          recording,
          channel,
          chirps[matched[i].marker.kind],
          Math.round(matched[i].peak.position),
          before,
          after,
        ),
      ]),
    );
    const reference = correlations.get(best);
    if (!reference) continue;
    for (const i of members) {
      const own = correlations.get(i);
      if (!own) continue;
      // The peaks themselves agree to a few periods of the carrier at worst.
      const { delay, similarity } = relativeDelay(own, reference, 0.0008 * effectiveRateHz);
      positions[i] = Math.round(matched[i].peak.position) + delay;
      if (i !== best) similarities.push(similarity);
    }
  }
  const frames = matched.map(({ marker }) => marker.frame);
  const whole = lineWithin(frames, positions, classes);
  const inside = lineWithin(
    frames,
    positions,
    classes.map((label, i) => label * 10_000 + matched[i].marker.group),
  );
  similarities.sort((a, b) => a - b);
  return {
    positions,
    classes,
    slope: whole.slope,
    slopeSigma: whole.sigma,
    slopeInside: inside.slope,
    slopeInsideSigma: inside.sigma,
    residuals: whole.residuals,
    similarity: similarities[similarities.length >> 1] ?? 0,
  };
}

/** Smallest timing error that is believed of one marker, samples: what is left at the best signal to noise. */
const LEAST_SIGMA_SAMPLES = 0.01;

function lineWithin(
  x: number[],
  y: number[],
  classes: number[],
): { slope: number | null; sigma: number | null; residuals: number[] } {
  const mean = new Map<number, { x: number; y: number; count: number }>();
  classes.forEach((label, i) => {
    const entry = mean.get(label) ?? { x: 0, y: 0, count: 0 };
    entry.x += x[i];
    entry.y += y[i];
    entry.count++;
    mean.set(label, entry);
  });
  let sxx = 0;
  let sxy = 0;
  const dx: number[] = [];
  const dy: number[] = [];
  for (let i = 0; i < x.length; i++) {
    const entry = mean.get(classes[i]);
    if (!entry) continue;
    dx.push(x[i] - entry.x / entry.count);
    dy.push(y[i] - entry.y / entry.count);
    sxx += dx[i] * dx[i];
    sxy += dx[i] * dy[i];
  }
  if (sxx === 0) return { slope: null, sigma: null, residuals: x.map(() => 0) };
  const slope = sxy / sxx;
  const residuals = dx.map((d, i) => dy[i] - slope * d);
  const freedom = x.length - mean.size - 1;
  const square = residuals.reduce((sum, r) => sum + r * r, 0);
  const spread = freedom > 0 ? Math.sqrt(square / freedom) : 0;
  return { slope, sigma: Math.max(LEAST_SIGMA_SAMPLES, spread) / Math.sqrt(sxx), residuals };
}

// Which of the chirps heard are the markers of this track: group by group, then all groups on one time line.
import type { MarkerSegment, Side, TrackDescription } from '../signals/track.ts';
import type { ChirpKind, ChirpPeak } from './marker-search.ts';

/** A marker as the track describes it. */
export interface ExpectedMarker {
  kind: number;
  side: Side;
  /** First sample in the track. */
  frame: number;
  timeS: number;
  levelDbfs: number;
  group: number;
}

/** A marker found: the expected one and the peak it stands for. */
export interface MatchedMarker {
  marker: ExpectedMarker;
  peak: ChirpPeak;
}

export interface MarkerMatch {
  matched: MatchedMarker[];
  /** Groups of the track that were found, by number. */
  groupsFound: number[];
  groupCount: number;
  /** Sum of the scores of all matched markers. */
  score: number;
  /** Groups found whose place does not fit the others' time line, s of displacement. */
  displaced: { group: number; byS: number }[];
}

/** Markers of a group start no further apart than this. */
const GROUP_GAP_S = 0.6;
/** Slack inside a group: 0.3 % of clock error over its length, and a peak that locks on a reflection. */
const INSIDE_SLACK_S = 0.0018;
/** Slack between groups, share of the distance. */
const BETWEEN_SLACK = 0.005;
const SEED_SCORE = 0.18;

export function markerKinds(track: TrackDescription): { kinds: ChirpKind[]; markers: ExpectedMarker[] } {
  const kinds: ChirpKind[] = [];
  const markers: ExpectedMarker[] = [];
  const segments = track.segments
    .filter((segment): segment is MarkerSegment => segment.kind === 'marker')
    .sort((a, b) => a.startS - b.startS);
  let group = -1;
  let previousS = Number.NEGATIVE_INFINITY;
  for (const { fromHz, toHz, durationS, startS, side, levelDbfs } of segments) {
    let kind = kinds.findIndex((k) => k.fromHz === fromHz && k.toHz === toHz && k.durationS === durationS);
    if (kind < 0) kind = kinds.push({ fromHz, toHz, durationS }) - 1;
    const last = markers[markers.length - 1];
    // A change of side or of level begins a new group even when it follows closely.
    if (startS - previousS > GROUP_GAP_S || last.side !== side || last.levelDbfs !== levelDbfs) group++;
    const frame = Math.round(startS * track.rateHz);
    markers.push({ kind, side, frame, timeS: frame / track.rateHz, levelDbfs, group });
    previousS = startS;
  }
  return { kinds, markers };
}

interface Placement {
  offsetS: number;
  score: number;
  matched: MatchedMarker[];
}

/**
 * The best assignment of peaks to the track's markers.
 *
 * @param peaks    per kind, in time order
 * @param rateHz   recorded samples per second of the track, nominal
 */
export function matchMarkers(markers: ExpectedMarker[], peaks: ChirpPeak[][], rateHz: number): MarkerMatch {
  const groupCount = markers.length === 0 ? 0 : markers[markers.length - 1].group + 1;
  const groups: ExpectedMarker[][] = Array.from({ length: groupCount }, () => []);
  for (const marker of markers) groups[marker.group].push(marker);
  const placements = groups.map((group) => placementsOf(group, peaks, rateHz));
  let best: { chosen: (Placement | null)[]; score: number } = { chosen: groups.map(() => null), score: 0 };
  // A lone marker is a weak seed: groups of two and more propose time lines first.
  const largest = Math.max(...groups.map((group) => group.length), 0);
  for (let g = 0; g < groupCount; g++) {
    if (groups[g].length < Math.min(2, largest)) continue;
    for (const seed of placements[g]) {
      const chosen = placements.map((candidates, other) => {
        if (other === g) return seed;
        const slack = INSIDE_SLACK_S + BETWEEN_SLACK * Math.abs(groups[other][0].timeS - groups[g][0].timeS);
        let pick: Placement | null = null;
        for (const candidate of candidates) {
          const away = Math.abs(candidate.offsetS - seed.offsetS);
          if (away <= slack && (!pick || candidate.score > pick.score)) pick = candidate;
        }
        return pick;
      });
      const score = chosen.reduce((sum, placement) => sum + (placement?.score ?? 0), 0);
      if (score > best.score) best = { chosen, score };
    }
  }
  const displaced: MarkerMatch['displaced'] = [];
  const anchor = best.chosen.find((placement) => placement !== null);
  if (anchor) {
    best.chosen.forEach((placement, g) => {
      if (placement || groups[g].length < 3) return;
      const elsewhere = placements[g]
        .filter((candidate) => candidate.matched.length === groups[g].length)
        .sort((a, b) => b.score - a.score)[0];
      if (elsewhere) displaced.push({ group: g, byS: elsewhere.offsetS - anchor.offsetS });
    });
  }
  return {
    matched: best.chosen
      .flatMap((placement) => placement?.matched ?? [])
      .sort((a, b) => a.marker.frame - b.marker.frame),
    groupsFound: best.chosen.flatMap((placement, g) => (placement ? [g] : [])),
    groupCount,
    score: best.score,
    displaced,
  };
}

function placementsOf(group: ExpectedMarker[], peaks: ChirpPeak[][], rateHz: number): Placement[] {
  const found: Placement[] = [];
  for (const seed of group) {
    for (const peak of peaks[seed.kind]) {
      if (peak.score < SEED_SCORE) continue;
      const offsetS = peak.position / rateHz - seed.timeS;
      const matched: MatchedMarker[] = [];
      let score = 0;
      for (const marker of group) {
        const near = marker === seed ? peak : nearest(peaks[marker.kind], (offsetS + marker.timeS) * rateHz);
        if (near && Math.abs(near.position / rateHz - offsetS - marker.timeS) <= INSIDE_SLACK_S) {
          matched.push({ marker, peak: near });
          score += near.score;
        }
      }
      if (matched.length < Math.min(2, group.length)) continue;
      const same = found.find((placement) => Math.abs(placement.offsetS - offsetS) < 2 * INSIDE_SLACK_S);
      if (!same) found.push({ offsetS, score, matched });
      else if (score > same.score) Object.assign(same, { offsetS, score, matched });
    }
  }
  return found;
}

function nearest(peaks: ChirpPeak[], position: number): ChirpPeak | null {
  let low = 0;
  let high = peaks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (peaks[middle].position < position) low = middle + 1;
    else high = middle;
  }
  const after = peaks[low];
  const before = peaks[low - 1];
  if (!after) return before ?? null;
  if (!before) return after;
  return position - before.position < after.position - position ? before : after;
}

const CODE_STEP_S = 0.005;
const CODE_FIRST_S = 0.15;

/** Track code spelt by the two gaps of a group, or null where they do not fit the grid of 5 ms. */
export function codeOfGaps(gap1S: number, gap2S: number): number | null {
  const digits = [gap1S, gap2S].map((gap) => (gap - CODE_FIRST_S) / CODE_STEP_S);
  if (digits.some((digit) => Math.abs(digit - Math.round(digit)) > 0.3)) return null;
  const [low, high] = digits.map(Math.round);
  if (low < 0 || low > 15 || high < 0 || high > 15) return null;
  return low + 16 * high;
}

/** A group of three chirps that spells a track code, whatever track it belongs to. */
export interface CodedGroup {
  code: number;
  timeS: number;
  score: number;
  /** up/down/up begins a track, down/up/down ends it. */
  end: boolean;
}

/** All groups of three alternating chirps whose gaps fit the code's grid. `up` and `down` are indices into `peaks`. */
export function codedGroups(peaks: ChirpPeak[][], up: number, down: number, rateHz: number): CodedGroup[] {
  const events = [
    ...peaks[up].map((peak) => ({ peak, rising: true })),
    ...peaks[down].map((peak) => ({ peak, rising: false })),
  ]
    .filter((event) => event.peak.score >= SEED_SCORE)
    .sort((a, b) => a.peak.position - b.peak.position);
  const found: CodedGroup[] = [];
  for (let i = 0; i < events.length; i++) {
    for (let j = i + 1; j < events.length; j++) {
      const gap1S = (events[j].peak.position - events[i].peak.position) / rateHz;
      if (gap1S > GROUP_GAP_S) break;
      if (events[j].rising === events[i].rising) continue;
      for (let k = j + 1; k < events.length; k++) {
        const gap2S = (events[k].peak.position - events[j].peak.position) / rateHz;
        if (gap2S > GROUP_GAP_S) break;
        if (events[k].rising !== events[i].rising) continue;
        const code = codeOfGaps(gap1S, gap2S);
        if (code === null) continue;
        found.push({
          code,
          timeS: events[i].peak.position / rateHz,
          score: events[i].peak.score + events[j].peak.score + events[k].peak.score,
          end: !events[i].rising,
        });
      }
    }
  }
  return found;
}

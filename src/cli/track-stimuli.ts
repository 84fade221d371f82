// What a track plays, in words.
import type { SweepSegment, TrackDescription, TrackSegment } from '../signals/track.ts';

/** Distinct values of the segments, in the order met. */
function sidesOf(segments: TrackSegment[]): string {
  const sides = [...new Set(segments.map((segment) => String((segment as Record<string, unknown>).side)))];
  if (sides.length === 0) return 'none';
  return sides.length === 1 ? sides[0] : 'both';
}

function counted(count: number, one: string, many = `${one}s`): string {
  return count === 1 ? `1 ${one}` : `${count} ${many}`;
}

function hertz(value: number): string {
  return `${Number(value.toFixed(1))} Hz`;
}

function range(low: number, high: number, unit: string): string {
  return low === high ? `${low} ${unit}` : `${low} to ${high} ${unit}`;
}

/** Words for all segments of one kind. */
function wordsFor(kind: string, segments: TrackSegment[]): string {
  const field = (segment: TrackSegment, name: string) => Number((segment as Record<string, unknown>)[name]);
  const first = segments[0];
  const lengthS = Number(first.durationS.toFixed(2));
  const levels = segments.map((segment) => field(segment, 'levelDbfs'));
  const rising = new Set(levels).size > 1 ? `, rising ${range(Math.min(...levels), Math.max(...levels), 'dBFS')}` : '';
  if (kind === 'sweep') {
    const { fromHz, toHz } = first as SweepSegment;
    return `${counted(segments.length, 'sweep')} ${hertz(fromHz)} to ${hertz(toHz)}, ${lengthS} s${rising}`;
  }
  if (kind === 'noise') {
    return `${counted(segments.length, 'stretch', 'stretches')} of pink noise, ${lengthS} s`;
  }
  if (kind === 'tone') {
    const tones = [...new Set(segments.map((segment) => hertz(field(segment, 'fHz'))))].join(', ');
    return `${counted(segments.length, 'tone')} (${tones}), ${lengthS} s${rising}`;
  }
  if (kind === 'pulses') return `${counted(segments.length, 'train')} of pulses`;
  return counted(segments.length, kind);
}

/** Stimuli and sides of a track for a person. */
export function trackInWords(track: TrackDescription): { stimuli: string; side: string; markerSide: string } {
  const markers = track.segments.filter(({ kind }) => kind === 'marker');
  const sounds = track.segments.filter(({ kind }) => kind !== 'marker' && kind !== 'silence');
  const kinds = [...new Set(sounds.map(({ kind }) => kind))];
  const words = kinds.map((kind) =>
    wordsFor(
      kind,
      sounds.filter((segment) => segment.kind === kind),
    ),
  );
  const side = sidesOf(sounds.length > 0 ? sounds : markers);
  const where = side === 'both' ? 'both sides' : side;
  return {
    stimuli: words.length === 0 ? 'markers only, left and right in turn' : `${words.join('; ')}; ${where}`,
    side,
    markerSide: sidesOf(markers),
  };
}

// What a well-formed track description says that cannot be true, whoever wrote it.
import type { Issue } from '../base/result.ts';
import type { TrackDescription, TrackSegment } from './track.ts';

const numberOf = (segment: TrackSegment, field: string): number | undefined => {
  const value = (segment as Record<string, unknown>)[field];
  return typeof value === 'number' ? value : undefined;
};

/** What one segment says that cannot be; the form is known to be right. */
function segmentComplaints(segment: TrackSegment, track: TrackDescription): [field: string, message: string][] {
  const complaints: [string, string][] = [];
  const endS = segment.startS + segment.durationS;
  // Descriptions round their seconds; a millisecond past the end is that, and no mistake.
  if (endS > track.durationS + 1e-3) {
    complaints.push([
      'durationS',
      `The segment ends at ${endS} s, after the end of the track at ${track.durationS} s.`,
    ]);
  }
  const halfRateHz = track.rateHz / 2;
  for (const field of ['fromHz', 'toHz', 'fHz']) {
    const fHz = numberOf(segment, field);
    if (fHz !== undefined && fHz > halfRateHz) {
      complaints.push([
        field,
        `${fHz} Hz is above ${halfRateHz} Hz, the highest that ${track.rateHz} samples a second carry.`,
      ]);
    }
  }
  const fromHz = numberOf(segment, 'fromHz');
  const toHz = numberOf(segment, 'toHz');
  if (segment.kind === 'sweep' && fromHz !== undefined && toHz !== undefined && fromHz >= toHz) {
    complaints.push(['toHz', `A sweep must rise, but this one goes from ${fromHz} Hz to ${toHz} Hz.`]);
  }
  if (segment.kind === 'marker' && fromHz === toHz) {
    complaints.push(['toHz', `A marker must move, but this one stays at ${fromHz} Hz.`]);
  }
  const fadesS = (numberOf(segment, 'fadeInS') ?? 0) + (numberOf(segment, 'fadeOutS') ?? 0);
  if (fadesS > segment.durationS) {
    complaints.push(['fadeInS', `Its fades last ${fadesS} s, longer than the segment's ${segment.durationS} s.`]);
  }
  return complaints;
}

/** Everything in a well-formed description that cannot be true; `where` names the field, such as `segments[2].toHz`. */
export function trackContradictions(track: TrackDescription): Issue[] {
  const mend = 'Give the description that was written beside the track, or mend this field.';
  const issues = track.segments.flatMap((segment, index) =>
    segmentComplaints(segment, track).map(([field, message]) => ({
      code: 'track-contradicts-itself',
      message,
      where: `segments[${index}].${field}`,
      mend,
    })),
  );
  if (!track.segments.some(({ kind }) => kind !== 'silence')) {
    issues.push({
      code: 'nothing-to-read',
      message: 'The track plays nothing but silence, so a recording of it says nothing about the car.',
      where: 'segments',
      mend: 'Give the description of a track that plays something, such as "kickpanel track sweep" writes.',
    });
  }
  return issues;
}

// The track description beside a test track: its form, and whether its numbers can be true.
import { failure, type Result } from '../base/result.ts';
import { type TrackDescription, trackSchema } from '../signals/track.ts';
import { trackContradictions } from '../signals/track-contradictions.ts';
import { readJsonFile } from './json-file.ts';

/** The description in a file, or every reason why it cannot be read by. */
export function readTrackFile(path: string): Result<TrackDescription> {
  const track = readJsonFile(path, trackSchema, 'a track description (F.track.json)');
  if (!track.ok) return track;
  const issues = trackContradictions(track.value).map((issue) => ({ ...issue, where: `${path}: ${issue.where}` }));
  return issues.length > 0 ? failure(...issues) : track;
}

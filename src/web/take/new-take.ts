// A take before its sound: what it is, from what was chosen and from how the job stands.
import type { TrackDescription } from '../../signals/track.ts';
import type { JobView, Microphone } from '../api-client.ts';
import { type KeptTake, keepPiece, keepTake } from '../keep/kept-take.ts';
import { newId } from '../shop/ids.ts';
import { noteSaved } from '../shop/saved-status.ts';
import { whoWrites } from '../shop/use-job.ts';
import type { RecordingWish } from './recording.ts';
import { trackWords } from './take-wish.ts';

export interface NewTake {
  view: JobView;
  track: TrackDescription;
  place: string;
  microphone: Microphone | null;
}

/** The side that a take is about; none where both were played in turn. */
function sideOf({ track }: NewTake): 'left' | 'right' | 'both' | null {
  const sides = new Set(
    track.segments.flatMap((segment) => {
      const { kind, side } = segment as { kind: string; side?: 'left' | 'right' | 'both' };
      return kind === 'silence' || kind === 'marker' || side === undefined ? [] : [side];
    }),
  );
  const [side] = sides;
  return sides.size === 1 && side !== undefined ? side : null;
}

export function takeToRecord(take: NewTake): RecordingWish['take'] {
  const { view, track, place, microphone } = take;
  const splDb = microphone?.fullScaleSplDb;
  const side = sideOf(take);
  return {
    id: newId(),
    job: view.job.id,
    who: whoWrites(),
    track,
    entryIds: { track: newId(), take: newId(), note: newId() },
    take: {
      name: `${place.trim() || 'Unnamed place'}, ${trackWords(track)}`.slice(0, 120),
      ...(place.trim() === '' ? {} : { place: place.trim() }),
      ...(side === null ? {} : { side }),
      ...(microphone === null ? {} : { microphone: microphone.microphone }),
      covers: view.job.covers.map(({ cover, state }) => ({ cover, state })),
      level: splDb === undefined ? { reference: 'full-scale' } : { reference: 'spl', fullScaleSplDb: splDb },
    },
  };
}

const pieceBytes = 4 << 20;

/** Keeps a recording that was made elsewhere, byte for byte. */
export async function keepFile(wish: RecordingWish['take'], file: File): Promise<KeptTake> {
  let kept: KeptTake = {
    ...wish,
    startedMs: Date.now(),
    state: 'recording',
    sound: { kind: 'file', name: file.name },
    frames: 0,
    pieces: 0,
    bytes: 0,
  };
  await keepTake(kept);
  for (let at = 0; at < file.size || at === 0; at += pieceBytes) {
    kept = await keepPiece(kept, new Uint8Array(await file.slice(at, at + pieceBytes).arrayBuffer()), 0);
  }
  kept = { ...kept, state: 'waiting' };
  await keepTake(kept);
  noteSaved({ hereWhen: Date.now() });
  return kept;
}

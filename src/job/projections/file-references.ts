// The files that a journal speaks of: recordings, track descriptions and photos, by the hash of their content.
import type { Entry } from '../entries.ts';
import { understood } from '../lifts.ts';

export interface FileReferences {
  /** By hash, the position of the first entry that speaks of it, counted from 1. */
  recordings: Map<string, number>;
  tracks: Map<string, number>;
  photos: Map<string, number>;
}

/** Kinds of entries that speak of files. */
const speaking = new Set(['take-recorded', 'track-made', 'photo-attached']);

/** Entries in the order in which they stand in the journal. Those taken back count too: their files are kept. */
export function fileReferences(entries: readonly Entry[]): FileReferences {
  const recordings = new Map<string, number>();
  const tracks = new Map<string, number>();
  const photos = new Map<string, number>();
  const note = (files: Map<string, number>, hash: string, index: number) => {
    if (!files.has(hash)) files.set(hash, index + 1);
  };
  entries.forEach((entry, index) => {
    if (!speaking.has(entry.kind)) return;
    const known = understood(entry);
    if (known?.kind === 'take-recorded') note(recordings, known.data.recording, index);
    if (known?.kind === 'take-recorded' || known?.kind === 'track-made') note(tracks, known.data.track, index);
    if (known?.kind === 'photo-attached') note(photos, known.data.photo, index);
  });
  return { recordings, tracks, photos };
}

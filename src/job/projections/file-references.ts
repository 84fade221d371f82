// The files that a journal speaks of: recordings and track descriptions, by the hash of their content.
import type { Entry } from '../entries.ts';
import { understood } from '../lifts.ts';

export interface FileReferences {
  /** By hash, the position of the first entry that speaks of it, counted from 1. */
  recordings: Map<string, number>;
  tracks: Map<string, number>;
}

/** Entries in the order in which they stand in the journal. Those taken back count too: their files are kept. */
export function fileReferences(entries: readonly Entry[]): FileReferences {
  const recordings = new Map<string, number>();
  const tracks = new Map<string, number>();
  const note = (files: Map<string, number>, hash: string, index: number) => {
    if (!files.has(hash)) files.set(hash, index + 1);
  };
  entries.forEach((entry, index) => {
    if (entry.kind !== 'take-recorded' && entry.kind !== 'track-made') return;
    const known = understood(entry);
    if (known?.kind === 'take-recorded') note(recordings, known.data.recording, index);
    if (known?.kind === 'take-recorded' || known?.kind === 'track-made') note(tracks, known.data.track, index);
  });
  return { recordings, tracks };
}

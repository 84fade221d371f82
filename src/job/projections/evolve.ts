// One entry's effect on a job. A fact is never refused here: what refers to something unknown has no effect.
import { entrySentence } from '../entry-sentence.ts';
import type { UnderstoodEntry } from '../lifts.ts';
import { isUndoable } from '../undo.ts';
import type { JobState, Take } from './job-state.ts';

/** A job of which nothing is known yet. */
export function initialState(job: string): JobState {
  return {
    id: job,
    name: '',
    purpose: 'car',
    created: null,
    changedWhen: null,
    vehicle: {},
    personal: {},
    erasedRecords: [],
    covers: [],
    takes: [],
    tracks: [],
    microphones: [],
    notes: [],
    comparisons: [],
    undoable: null,
    entries: 0,
    undone: 0,
    notUnderstood: 0,
  };
}

/** The job after `entry`, an entry that counts. Neither argument is changed. */
export function evolve(state: JobState, entry: UnderstoodEntry): JobState {
  const next = effect(state, entry);
  if (!isUndoable(entry) || entry.kind === 'undone') return next;
  return { ...next, undoable: { ...stampOf(entry), kind: entry.kind, says: entrySentence(entry) } };
}

function stampOf({ id, when, who }: UnderstoodEntry): { entry: string; when: string; who: string } {
  return { entry: id, when, who };
}

function effect(state: JobState, entry: UnderstoodEntry): JobState {
  const stamp = stampOf(entry);
  switch (entry.kind) {
    case 'job-created':
      return state.created === null ? { ...state, ...entry.data, created: stamp } : state;
    case 'job-renamed':
      return { ...state, ...entry.data };
    case 'vehicle-described': {
      const { personal, ...vehicle } = entry.data;
      return { ...state, vehicle: { ...state.vehicle, ...vehicle }, personal: { ...state.personal, ...personal } };
    }
    case 'covers-changed': {
      const changed = new Set(entry.data.covers.map(({ cover }) => cover));
      const covers = [
        ...state.covers.filter(({ cover }) => !changed.has(cover)),
        ...entry.data.covers.map((cover) => ({ ...cover, since: entry.when })),
      ];
      return { ...state, covers: covers.sort((a, b) => (a.cover < b.cover ? -1 : 1)) };
    }
    case 'track-made': {
      const tracks = state.tracks.filter(({ track }) => track !== entry.data.track);
      return { ...state, tracks: [...tracks, { ...stamp, ...entry.data }] };
    }
    case 'take-recorded':
      if (state.takes.some(({ take }) => take === entry.data.take)) return state;
      return { ...state, takes: [...state.takes, { ...stamp, ...entry.data, kept: true, notes: [] }] };
    case 'take-noted': {
      const { take, note, ...change } = entry.data;
      const noted = (old: Take): Take => ({
        ...old,
        ...change,
        notes: note === undefined ? old.notes : [...old.notes, { ...stamp, text: note }],
      });
      return { ...state, takes: state.takes.map((old) => (old.take === take ? noted(old) : old)) };
    }
    case 'take-compared':
      return { ...state, comparisons: [...state.comparisons, { ...stamp, ...entry.data }] };
    case 'microphone-calibrated': {
      const { microphone } = entry.data;
      const before = state.microphones.find((known) => known.microphone === microphone);
      const others = state.microphones.filter((known) => known.microphone !== microphone);
      return { ...state, microphones: [...others, { ...before, ...stamp, ...entry.data }] };
    }
    case 'note-added':
      return { ...state, notes: [...state.notes, { ...stamp, ...entry.data }] };
    case 'undone':
      return state;
    case 'personal-erased':
      return { ...state, erasedRecords: [...state.erasedRecords, ...entry.data.records] };
  }
}

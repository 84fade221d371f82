// One entry's effect on a job. A fact is never refused here: what refers to something unknown has no effect.
import { entrySentence } from '../entry-sentence.ts';
import { evidenceRecords } from '../hold-points/given-evidence.ts';
import type { UnderstoodEntry } from '../lifts.ts';
import { isUndoable } from '../undo.ts';
import { applyPlanChanges, emptyJobPlan } from './job-plan.ts';
import type { JobState } from './job-state.ts';

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
    photos: [],
    checks: [],
    notes: [],
    plan: emptyJobPlan(),
    evidence: [],
    heard: [],
    comparisons: [],
    undoable: null,
    entries: 0,
    undone: 0,
    notUnderstood: 0,
  };
}

/** The job after `entry`, an entry that counts. Neither argument is changed. */
export function evolve(state: JobState, entry: UnderstoodEntry): JobState {
  return evolved(state, [entry]);
}

/** The job after all of `entries`, in their order. A long journal is folded into one copy, not into one for each entry. */
export function evolved(state: JobState, entries: readonly UnderstoodEntry[]): JobState {
  const draft = structuredClone(state);
  let last: UnderstoodEntry | undefined;
  for (const entry of entries) {
    apply(draft, entry);
    if (isUndoable(entry) && entry.kind !== 'undone') last = entry;
  }
  if (last !== undefined) draft.undoable = { ...stampOf(last), kind: last.kind, says: entrySentence(last) };
  return draft;
}

function stampOf({ id, when, who }: UnderstoodEntry): { entry: string; when: string; who: string } {
  return { entry: id, when, who };
}

/** Changes `draft`, which nobody else has. */
function apply(draft: JobState, entry: UnderstoodEntry): void {
  const stamp = stampOf(entry);
  switch (entry.kind) {
    case 'job-created':
      if (draft.created === null) Object.assign(draft, entry.data, { created: stamp });
      break;
    case 'job-renamed':
      Object.assign(draft, entry.data);
      break;
    case 'vehicle-described': {
      const { personal, ...vehicle } = entry.data;
      Object.assign(draft.vehicle, vehicle);
      Object.assign(draft.personal, personal);
      break;
    }
    case 'covers-changed':
      for (const { cover, state } of entry.data.covers) {
        draft.covers = draft.covers.filter((known) => known.cover !== cover);
        const over = entry.data.passedOver;
        const holdPoints = over?.open.find((known) => known.cover === cover)?.holdPoints;
        const passed =
          over === undefined || holdPoints === undefined
            ? {}
            : { passedOver: { ...stamp, name: over.name, why: over.why, holdPoints } };
        draft.covers.push({ cover, state, since: entry.when, ...passed });
      }
      draft.covers.sort((a, b) => (a.cover < b.cover ? -1 : 1));
      break;
    case 'evidence-given':
      draft.evidence.push(...evidenceRecords(draft.plan.parts, stamp, entry.data));
      break;
    case 'track-made':
      draft.tracks = draft.tracks.filter(({ track }) => track !== entry.data.track);
      draft.tracks.push({ ...stamp, ...entry.data });
      break;
    case 'take-recorded':
      if (draft.takes.some(({ take }) => take === entry.data.take)) break;
      draft.takes.push({ ...stamp, ...entry.data, kept: true, notes: [] });
      break;
    case 'take-noted': {
      const { take, note, ...change } = entry.data;
      const noted = draft.takes.find((known) => known.take === take);
      if (noted === undefined) break;
      Object.assign(noted, change);
      if (note !== undefined) noted.notes.push({ ...stamp, text: note });
      break;
    }
    case 'take-compared':
      draft.comparisons.push({ ...stamp, ...entry.data });
      break;
    case 'microphone-calibrated': {
      const { microphone } = entry.data;
      const before = draft.microphones.find((known) => known.microphone === microphone);
      draft.microphones = draft.microphones.filter((known) => known !== before);
      draft.microphones.push({ ...before, ...stamp, ...entry.data });
      break;
    }
    case 'photo-attached':
      draft.photos = draft.photos.filter(({ photo }) => photo !== entry.data.photo);
      draft.photos.push({ ...stamp, ...entry.data });
      break;
    case 'checked': {
      const { at, check, found } = entry.data;
      draft.checks.push({ ...stamp, at, check, found });
      if (found.how === 'said') draft.personal.complaint = found.personal;
      break;
    }
    case 'note-added':
      draft.notes.push({ ...stamp, ...entry.data });
      break;
    case 'plan-changed': {
      const { changes, template } = entry.data;
      applyPlanChanges(draft.plan, draft.evidence, stamp, changes);
      if (template !== undefined) draft.plan.template = template;
      break;
    }
    case 'sound-heard':
      draft.heard.push({ ...stamp, ...entry.data });
      break;
    case 'finding-overridden': {
      const { finding, place } = entry.data;
      draft.plan.overrides = draft.plan.overrides.filter((known) => known.finding !== finding || known.place !== place);
      draft.plan.overrides.push({ ...stamp, ...entry.data });
      break;
    }
    case 'undone':
      break;
    case 'personal-erased':
      draft.erasedRecords.push(...entry.data.records);
  }
}

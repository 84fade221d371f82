// Workshops for tests: in memory, or in a fresh folder, with a clock that counts minutes and ids that count up.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Command } from '../../src/job/commands/commands.ts';
import type { TrackDescription } from '../../src/signals/track.ts';
import { designTrack } from '../../src/signals/track-design/design-track.ts';
import { type Database, openDatabase } from '../../src/store/database.ts';
import { type FileSystem, realFileSystem } from '../../src/store/file-system.ts';
import { folderContentStore } from '../../src/store/folder-content-store.ts';
import { keepRecording, keepTrack } from '../../src/store/keep-files.ts';
import { keepPhoto } from '../../src/store/keep-photo.ts';
import { libsqlJournalStore } from '../../src/store/libsql-journal-store.ts';
import { memoryContentStore } from '../../src/store/memory-content-store.ts';
import { memoryJournalStore } from '../../src/store/memory-journal-store.ts';
import { makeWorkshop, type Surroundings, type Workshop } from '../../src/store/workshop.ts';
import { carryOut } from '../../src/store/write-entries.ts';
import { noiseWav } from '../crash/busy-clients.ts';
import { at, sha256 } from './given.ts';
import { jpegPhoto } from './photos.ts';

export function countedSurroundings(name = 'bench'): Surroundings {
  let minutes = 0;
  let ids = 0;
  return {
    now: () => at(++minutes),
    freshId: () => `${name}-id-${++ids}`,
    freshSalt: () => sha256(`${name} salt ${++ids}`).slice(0, 32),
  };
}

export function memoryWorkshop(device = 'bench'): Workshop {
  const parts = { journals: memoryJournalStore(), content: memoryContentStore(), device };
  return makeWorkshop(parts, countedSurroundings(device));
}

export interface FolderWorkshop {
  workshop: Workshop;
  folder: string;
  close: () => Promise<void>;
  /** Closes it and takes the folder away. */
  clear: () => Promise<void>;
}

export const freshFolder = () => mkdtempSync(join(tmpdir(), 'kickpanel-store-'));

/** A workshop in `folder`; the disk and the database may be replaced by ones that fail. */
export async function folderWorkshop(
  folder = freshFolder(),
  seams: { files?: FileSystem; database?: (real: Database) => Database; device?: string } = {},
): Promise<FolderWorkshop> {
  const { files = realFileSystem, database = (real) => real, device = 'bench' } = seams;
  const content = await folderContentStore(folder, files);
  const journals = libsqlJournalStore(database(openDatabase(join(folder, 'journal.db'))));
  const workshop = makeWorkshop({ journals, content, device }, countedSurroundings(device));
  const close = () => journals.close();
  return {
    workshop,
    folder,
    close,
    async clear() {
      await close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

const designed = designTrack({ kind: 'pair', rateHz: 32_000 });

export function shortTrack(): TrackDescription {
  if (!designed.ok) throw new Error('the track must be fine');
  return designed.value;
}

/** Does what people do, with fresh ids; throws when anything is refused. */
export async function does(workshop: Workshop, job: string, ...wishes: Command[]): Promise<string[]> {
  const requests = wishes.map((wish) => ({ id: workshop.freshId(), who: 'Ann', wish }));
  const written = await carryOut(workshop, job, requests);
  if (!written.ok) throw new Error(`refused: ${written.issues[0].message}`);
  return requests.map(({ id }) => id);
}

/** A recording and its track kept, and the wish that enters the take. */
export async function keptTake(workshop: Workshop, name: string, seed: number, bytes = 5000): Promise<Command> {
  const recording = await keepRecording(workshop.content, [noiseWav(seed, bytes)]);
  const track = await keepTrack(workshop.content, shortTrack());
  if (!recording.ok || !track.ok) throw new Error('the files must be kept');
  return {
    command: 'recordTake',
    name,
    recording: recording.value.sha256,
    bytes: recording.value.bytes,
    track: track.value.sha256,
  };
}

/** A photo kept, and the wish that attaches it. */
export async function keptPhotoOf(workshop: Workshop, seed: number | string, name = `photo ${seed}`): Promise<Command> {
  const kept = await keepPhoto(workshop.content, [jpegPhoto(seed)]);
  if (!kept.ok) throw new Error('the photo must be kept');
  const { sha256: photo, bytes, checked } = kept.value;
  return { command: 'attachPhoto', photo, bytes, type: checked.type, name };
}

/** A job with everything in it that a job can have. */
export async function fullJob(workshop: Workshop, job = 'j1'): Promise<void> {
  await does(
    workshop,
    job,
    { command: 'createJob', name: 'Four door speakers', number: '0412', purpose: 'car' },
    {
      command: 'describeVehicle',
      bodyType: 'van',
      name: 'Tarrow Pipit van',
      owner: 'Wenbury Library',
      plate: 'WB 12 XYZ',
    },
    { command: 'changeCovers', covers: [{ cover: 'A', state: 'off' }] },
    await keptTake(workshop, 'left door', 1),
    await keptTake(workshop, 'right door', 2),
    { command: 'addNote', text: 'the grille rattles' },
  );
}

// Everything the page asks of the shop's server, behind one interface, so that tests can stand in for it.
import type { Command, SeenPart } from '../job/commands/commands.ts';
import type { ImpulseResponse, ReadOptions } from '../measurement/reading.ts';
import {
  type Appended,
  apiClient,
  type ErrorBody,
  type Imported,
  type JobSummary,
  type JobView,
  type MadeTrack,
  type Microphone,
  type NearState,
  type ReadingState,
  type StoredPhoto,
  type StoredRecording,
} from '../server/client.ts';
import { byteSourceFromArray } from '../signals/recording.ts';
import type { TrackDescription } from '../signals/track.ts';
import { readWav } from '../signals/wav/read-wav.ts';
import { newId } from './shop/ids.ts';
import { ShopError, shopErrorFrom } from './shop/shop-error.ts';

export type { Imported, JobSummary, JobView, MadeTrack, Microphone, NearState, ReadingState, StoredRecording };

/** A wish whose id was made before, so that it may be sent again. */
export interface IdentifiedWish {
  id: string;
  wish: Command;
  /** When it was wished, and what its author had seen of the plan: of a wish that comes late. */
  when?: string;
  seen?: SeenPart[];
}

export interface Correction {
  correction: { fHz: number[]; deviationDb: number[] };
  notes: string[];
  fullScaleSplDb?: number;
}

export interface About {
  version: string;
  readerVersion: string;
  dataFolder: string;
}

export interface PaperWish {
  format: 'pdf' | 'svg';
  /** Of labels: sheets to cut, or a roll. */
  stock: 'sheet' | 'roll';
  /** Of labels: where their codes open a lead. */
  address: string;
}

export interface ShopApi {
  about(): Promise<About>;
  jobs(): Promise<JobSummary[]>;
  job(job: string): Promise<JobView>;
  createJob(job: string, who: string, wishes: IdentifiedWish[]): Promise<JobView>;
  append(job: string, who: string, wishes: IdentifiedWish[]): Promise<JobView>;
  importJob(archive: Blob): Promise<Imported>;
  keepRecording(wav: Blob): Promise<StoredRecording>;
  keepPhoto(photo: Blob): Promise<StoredPhoto>;
  keepTrack(track: TrackDescription): Promise<MadeTrack>;
  track(sha256: string): Promise<TrackDescription>;
  startReading(recording: string, track: string, options: ReadOptions): Promise<ReadingState>;
  readingState(id: string): Promise<ReadingState>;
  cancelReading(id: string): Promise<ReadingState>;
  impulse(id: string): Promise<ImpulseResponse>;
  startNearWalk(job: string): Promise<NearState>;
  /** Cuts a long recording into the plays of a track. */
  startPlays(recording: string, track: string): Promise<NearState>;
  nearState(id: string): Promise<NearState>;
  cancelNear(id: string): Promise<NearState>;
  /** A paper of a job as files: one PDF, or an SVG for each sheet. */
  paper(job: string, paper: 'labels' | 'leads' | 'fuses', wish: PaperWish): Promise<Blob[]>;
  microphones(): Promise<Microphone[]>;
  calibrateMicrophone(who: string, microphone: Omit<Microphone, 'when' | 'who'>): Promise<Microphone[]>;
  correctionIn(text: string): Promise<Correction>;
  /** Calls back when a job changes or the server comes back; the answer ends it. */
  onChange(listener: (change: { job: string } | 'back' | 'away') => void): () => void;
}

interface JsonAnswer {
  ok: boolean;
  status: number;
  json(): Promise<unknown>;
}

/** The body of an answer, or what the server says is wrong. */
async function bodyOf<Body>(asked: Promise<JsonAnswer>): Promise<Body> {
  const answer = await asked.catch((error: unknown) => {
    throw shopErrorFrom(error);
  });
  const body = await answer.json().catch(() => undefined);
  if (answer.ok && body !== undefined) return body as Body;
  const said = (body as Partial<ErrorBody> | undefined)?.error;
  throw new ShopError({
    code: said?.code ?? 'server-fault',
    message: said?.message ?? `The server answered ${answer.status} without a reason.`,
    where: said?.where,
    mend: said?.mend,
    status: answer.status,
  });
}

export function shopApi(origin: string): ShopApi {
  const { api } = apiClient(origin);
  const viewOf = (appended: Promise<Appended>) => appended.then(({ view }) => view);
  return {
    about: () => bodyOf(api.about.$get()),
    jobs: () => bodyOf<{ jobs: JobSummary[] }>(api.jobs.$get()).then(({ jobs }) => jobs),
    job: (job) => bodyOf(api.jobs[':job'].$get({ param: { job } })),
    createJob: (job, who, wishes) =>
      viewOf(bodyOf(api.jobs.$post({ json: { job, requests: wishes.map((wish) => ({ ...wish, who })) } }))),
    append: (job, who, wishes) =>
      viewOf(
        bodyOf(
          api.jobs[':job'].entries.$post({
            param: { job },
            json: { requests: wishes.map((wish) => ({ ...wish, who })) },
          }),
        ),
      ),
    importJob: (archive) =>
      bodyOf(
        fetch(`${origin}/api/import`, {
          method: 'POST',
          headers: { 'content-type': 'application/zip' },
          body: archive,
        }),
      ),
    keepRecording: (wav) =>
      bodyOf(fetch(`${origin}/api/recordings`, { method: 'PUT', headers: { 'content-type': 'audio/wav' }, body: wav })),
    // Which of the two it is the server tells by the content; a telephone may call it anything.
    keepPhoto: (photo) =>
      bodyOf(fetch(`${origin}/api/photos`, { method: 'PUT', headers: { 'content-type': 'image/jpeg' }, body: photo })),
    keepTrack: (track) => bodyOf(api.tracks.$put({ json: track })),
    track: (sha256) => bodyOf(fetch(`${origin}/api/tracks/${sha256}.json`)),
    startReading: (recording, track, options) => bodyOf(api.readings.$post({ json: { recording, track, options } })),
    readingState: (id) => bodyOf(api.readings[':id'].$get({ param: { id } })),
    cancelReading: (id) => bodyOf(api.readings[':id'].$delete({ param: { id } })),
    startNearWalk: (job) => bodyOf(api.jobs[':job']['near-walk'].$post({ param: { job } })),
    startPlays: (recording, track) => bodyOf(api['near-plays'].$post({ json: { recording, track } })),
    nearState: (id) => bodyOf(api.near[':id'].$get({ param: { id } })),
    cancelNear: (id) => bodyOf(api.near[':id'].$delete({ param: { id } })),
    impulse: (id) => impulseFrom(fetch(`${origin}/api/readings/${id}/impulse`)),
    paper: (job, paper, wish) => papersFrom(`${origin}/api/jobs/${encodeURIComponent(job)}/papers/${paper}`, wish),
    microphones: () =>
      bodyOf<{ microphones: Microphone[] }>(api.microphones.$get()).then(({ microphones }) => microphones),
    calibrateMicrophone: (who, microphone) =>
      bodyOf<{ microphones: Microphone[] }>(api.microphones.$post({ json: { ...microphone, id: newId(), who } })).then(
        ({ microphones }) => microphones,
      ),
    correctionIn: (text) =>
      bodyOf(
        fetch(`${origin}/api/microphones/correction`, {
          method: 'POST',
          headers: { 'content-type': 'text/plain' },
          body: text,
        }),
      ),
    onChange(listener) {
      let events: EventSource;
      let again: ReturnType<typeof setTimeout> | undefined;
      const open = () => {
        clearTimeout(again);
        events?.close();
        events = new EventSource(`${origin}/api/events`);
        events.addEventListener('ready', () => listener('back'));
        events.addEventListener('changed', ({ data }) => listener({ job: (JSON.parse(data) as { job: string }).job }));
        events.addEventListener('error', () => {
          listener('away');
          // A browser tries again by itself after a lost line, but not after an answer that it did not like.
          if (events.readyState === EventSource.CLOSED) again = setTimeout(open, 2000);
        });
      };
      open();
      addEventListener('online', open);
      return () => {
        removeEventListener('online', open);
        clearTimeout(again);
        events.close();
      };
    },
  };
}

/** All sheets of a paper, one call a sheet. */
async function papersFrom(path: string, wish: PaperWish): Promise<Blob[]> {
  const files: Blob[] = [];
  for (let sheet = 1, sheets = 1; sheet <= sheets; sheet++) {
    const asked = fetch(`${path}?${new URLSearchParams({ ...wish, sheet: String(sheet) })}`);
    const answer = await asked.catch((error: unknown) => {
      throw shopErrorFrom(error);
    });
    if (!answer.ok) return bodyOf(Promise.resolve(answer));
    files.push(await answer.blob());
    // A PDF holds all of them.
    if (wish.format === 'svg') sheets = Number(answer.headers.get('kickpanel-sheets') ?? '1');
  }
  return files;
}

async function impulseFrom(asked: Promise<Response>): Promise<ImpulseResponse> {
  const answer = await asked.catch((error: unknown) => {
    throw shopErrorFrom(error);
  });
  if (!answer.ok) return bodyOf(Promise.resolve(answer));
  const wav = readWav(byteSourceFromArray(new Uint8Array(await answer.arrayBuffer())));
  if (!wav.ok) throw new ShopError({ ...wav.issues[0], status: answer.status });
  const { recording } = wav.value;
  const samples = new Float64Array(recording.frames);
  recording.readChannel(0, 0, recording.frames, samples);
  const arrivalIndex = Number(answer.headers.get('kickpanel-arrival-index') ?? '0');
  return { rateHz: recording.rateHz, arrivalIndex, samples };
}

// Handlers of recordings and tracks.
import type { Context } from 'hono';
import type { Issue } from '../../base/result.ts';
import type { TrackDescription } from '../../signals/track.ts';
import { trackContradictions } from '../../signals/track-contradictions.ts';
import { trackCautions } from '../../signals/track-design/cautions.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import type { TrackRequest } from '../../signals/track-design/request.ts';
import { fileSource } from '../../store/file-source.ts';
import { keepRecording, keepTrack, keptTrack } from '../../store/keep-files.ts';
import { isPlayable } from '../../store/track-sound.ts';
import { badNews, jsonAnswer } from '../answers.ts';
import type { MadeTrack, StoredRecording } from '../api/recordings.ts';
import type { ApiHandlers } from '../api.ts';
import { bodyPieces } from '../body-pieces.ts';
import type { ServerParts } from '../context.ts';
import { fileAnswer } from '../file-answer.ts';

type FileHandlers = Pick<ApiHandlers, 'putRecording' | 'getRecording' | 'makeTrack' | 'keepTrack' | 'getTrack'>;

/** What browsers and recorders call a WAV file. */
const soundTypes = new Set(['audio/wav', 'audio/wave', 'audio/x-wav', 'audio/vnd.wave', 'application/octet-stream']);

/** What never changes under its name may be kept by the browser. */
export const lasting = { 'cache-control': 'private, max-age=31536000, immutable' };

function unknownFile(what: 'recording' | 'track', where: string): Issue {
  const mend = what === 'recording' ? 'Send it first.' : 'Make it, or send its description first.';
  return { code: `${what}-unknown`, message: `There is no such ${what}.`, where, mend };
}

export function fileHandlers({ workshop, runner, cache }: ServerParts): FileHandlers {
  const { content } = workshop;
  const rendering = new Map<string, Promise<Issue[] | null>>();

  /** Makes the sound of a track if it is not there; several who ask at once wait for the same. */
  function rendered(sha256: string, track: TrackDescription): Promise<Issue[] | null> {
    const path = cache.path(`${sha256}.wav`);
    const begun =
      rendering.get(sha256) ??
      runner.run({ kind: 'render', track, path }, () => {}).done.then((result) => (result.ok ? null : result.issues));
    rendering.set(sha256, begun);
    return begun.finally(() => rendering.delete(sha256));
  }

  async function kept(context: Context, track: TrackDescription, cautions: MadeTrack['cautions']) {
    const done = await keepTrack(content, track);
    if (!done.ok) return badNews(context, done.issues, 422);
    const { sha256, isNew } = done.value;
    const wav = isPlayable(track) ? `/api/tracks/${sha256}.wav` : null;
    const made: MadeTrack = { sha256, track, cautions, wav, json: `/api/tracks/${sha256}.json` };
    return jsonAnswer<MadeTrack, 200 | 201>(context, made, isNew ? 201 : 200);
  }

  return {
    async putRecording(context) {
      const type = (context.req.header('content-type') ?? '').split(';')[0].trim().toLowerCase();
      if (!soundTypes.has(type)) {
        const message = `A recording is sent as audio/wav, this came as ${type === '' ? 'nothing' : type}.`;
        const mend = 'Send the WAV file itself as the body.';
        return badNews(context, [{ code: 'not-this-content', message, where: 'content-type', mend }], 415);
      }
      const done = await keepRecording(content, bodyPieces(context), context.req.valid('query').sha256);
      if (!done.ok) return badNews(context, done.issues, 422);
      const { sha256, bytes, isNew, checked: wav } = done.value;
      return jsonAnswer<StoredRecording, 200 | 201>(context, { sha256, bytes, wav }, isNew ? 201 : 200);
    },
    async getRecording(context) {
      const { sha256 } = context.req.valid('param');
      const source = await content.open('recordings', sha256);
      if (source === null) return badNews(context, [unknownFile('recording', sha256)], 404);
      return fileAnswer(context.req.raw, source, 'audio/wav', lasting);
    },
    async makeTrack(context) {
      const request = context.req.valid('json') as TrackRequest;
      const designed = designTrack(request);
      if (!designed.ok) return badNews(context, designed.issues, 422);
      return kept(context, designed.value, trackCautions(request, designed.value));
    },
    async keepTrack(context) {
      const track = context.req.valid('json');
      const issues = trackContradictions(track);
      return issues.length > 0 ? badNews(context, issues, 422) : kept(context, track, []);
    },
    async getTrack(context) {
      const [sha256, ending] = context.req.valid('param').file.split('.');
      if (ending === 'json') {
        const source = await content.open('tracks', sha256);
        if (source === null) return badNews(context, [unknownFile('track', sha256)], 404);
        return fileAnswer(context.req.raw, source, 'application/json', lasting);
      }
      const there = opened(cache.path(`${sha256}.wav`));
      if (there !== null) return fileAnswer(context.req.raw, there, 'audio/wav', lasting);
      const track = await keptTrack(content, sha256);
      if (track === null) return badNews(context, [unknownFile('track', sha256)], 404);
      const issues = await rendered(sha256, track);
      if (issues !== null) return badNews(context, issues, 422);
      return fileAnswer(context.req.raw, fileSource(cache.path(`${sha256}.wav`)), 'audio/wav', lasting);
    },
  };
}

function opened(path: string) {
  try {
    return fileSource(path);
  } catch {
    return null;
  }
}

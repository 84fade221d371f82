// Handlers of photos. What is served is only ever a picture: the type comes from the content, and nothing in it can run.
import { keepPhoto, keptPhoto } from '../../store/keep-photo.ts';
import { badNews, jsonAnswer } from '../answers.ts';
import type { StoredPhoto } from '../api/photos.ts';
import type { ApiHandlers } from '../api.ts';
import { bodyPieces } from '../body-pieces.ts';
import type { ServerParts } from '../context.ts';
import { fileAnswer } from '../file-answer.ts';
import { lasting } from './files.ts';

const pictureTypes = new Set(['image/jpeg', 'image/png', 'application/octet-stream']);

export function photoHandlers({ workshop: { content } }: ServerParts): Pick<ApiHandlers, 'putPhoto' | 'getPhoto'> {
  return {
    async putPhoto(context) {
      const type = (context.req.header('content-type') ?? '').split(';')[0].trim().toLowerCase();
      if (!pictureTypes.has(type)) {
        const message = `A photo is sent as image/jpeg or image/png, this came as ${type === '' ? 'nothing' : type}.`;
        const mend = 'Send the JPEG or PNG file itself as the body.';
        return badNews(context, [{ code: 'not-this-content', message, where: 'content-type', mend }], 415);
      }
      const done = await keepPhoto(content, bodyPieces(context), context.req.valid('query').sha256);
      if (!done.ok) return badNews(context, done.issues, 422);
      const { sha256, bytes, isNew, checked } = done.value;
      return jsonAnswer<StoredPhoto, 200 | 201>(context, { sha256, bytes, ...checked }, isNew ? 201 : 200);
    },
    async getPhoto(context) {
      const { sha256 } = context.req.valid('param');
      const photo = await keptPhoto(content, sha256);
      const source = photo === null ? null : await content.open('photos', sha256);
      if (photo === null || source === null) {
        const issue = {
          code: 'photo-unknown',
          message: 'There is no such photo.',
          where: sha256,
          mend: 'Send it first.',
        };
        return badNews(context, [issue], 404);
      }
      return fileAnswer(context.req.raw, source, `image/${photo.type}`, lasting);
    },
  };
}

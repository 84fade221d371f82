// The server as one function from request to answer: who may ask, the API, the pages.
import { OpenAPIHono } from '@hono/zod-openapi';
import { bodyLimit } from 'hono/body-limit';
import { HTTPException } from 'hono/http-exception';
import { isStoreFailure } from '../store/failure.ts';
import { badNews, errorBody } from './answers.ts';
import { apiOf } from './api.ts';
import type { ServerParts } from './context.ts';
import { fileHandlers } from './handlers/files.ts';
import { jobHandlers } from './handlers/jobs.ts';
import { nearWalkHandlers } from './handlers/near-walks.ts';
import { paperHandlers } from './handlers/papers.ts';
import { photoHandlers } from './handlers/photos.ts';
import { readingHandlers } from './handlers/readings.ts';
import { shopHandlers } from './handlers/shop.ts';
import { ownPagesOnly, strictHeaders } from './security.ts';
import { staticFiles } from './static-files.ts';

export interface AppOptions {
  /** Where the server listens, once that is known. */
  port: () => number;
  /** The built pages. */
  webFolder: string;
  /** Faults of ours go here, for those who mend them. */
  onFault: (error: unknown) => void;
}

/** Where files are put; they have limits of their own. */
const filesAt = new Set(['/api/recordings', '/api/photos']);

/** Everything but files and archives is small. */
const textBytesMax = 32 * 2 ** 20;

export function makeApp(parts: ServerParts, { port, webFolder, onFault }: AppOptions) {
  const app = new OpenAPIHono();
  const api = apiOf({
    ...jobHandlers(parts),
    ...fileHandlers(parts),
    ...photoHandlers(parts),
    ...paperHandlers(parts),
    ...readingHandlers(parts),
    ...nearWalkHandlers(parts),
    ...shopHandlers(parts),
  });
  const limited = bodyLimit({
    maxSize: textBytesMax,
    onError: (context) => {
      const message = `The call is larger than ${textBytesMax / 2 ** 20} MB.`;
      return context.json(errorBody([{ code: 'too-large', message, mend: 'Send it in parts.' }]), 413);
    },
  });

  app.use(strictHeaders(), ownPagesOnly(port));
  app.use('/api/*', (context, next) => {
    const { method, path } = context.req;
    const isFile = (method === 'PUT' && filesAt.has(path)) || path === '/api/import';
    return isFile ? next() : limited(context, next);
  });
  api.doc31('/api/openapi.json', {
    openapi: '3.1.0',
    info: { title: 'Kickpanel', version: parts.version, description: 'Everything that the app does to jobs.' },
  });
  app.route('/', api);
  app.use('/api/*', async (context) => {
    const where = `${context.req.method} ${context.req.path}`;
    const mend = 'GET /api/openapi.json lists the calls.';
    return context.json(errorBody([{ code: 'no-such-call', message: 'There is no such call.', where, mend }]), 404);
  });
  app.use('/*', staticFiles(webFolder));
  app.notFound((context) => {
    const where = context.req.path;
    return context.json(errorBody([{ code: 'no-such-page', message: 'There is no such page.', where }]), 404);
  });
  app.onError((error, context) => {
    if (isStoreFailure(error)) return badNews(context, [error.issue], 507);
    if (error instanceof HTTPException && error.status < 500) {
      const mend = 'GET /api/openapi.json says what the call takes.';
      const status = error.status === 415 ? 415 : 400;
      return context.json(errorBody([{ code: 'not-understood', message: error.message, mend }]), status);
    }
    onFault(error);
    const mend = 'This is a fault of Kickpanel. What was kept before is safe.';
    return context.json(errorBody([{ code: 'internal', message: error.message, mend }]), 500);
  });
  return app;
}

// The HTTP API as one type: every route with its handler. Clients take the type, the server gives the handlers.
import { OpenAPIHono, type RouteConfig, type RouteHandler } from '@hono/zod-openapi';
import type { ErrorBody } from './api/errors.ts';
import * as jobs from './api/jobs.ts';
import * as near from './api/near-walks.ts';
import * as papers from './api/papers.ts';
import * as photos from './api/photos.ts';
import * as readings from './api/readings.ts';
import * as recordings from './api/recordings.ts';
import * as shop from './api/shop.ts';

type Handler<Route extends RouteConfig> = RouteHandler<Route>;

/** One handler a route, under the route's own name. */
export interface ApiHandlers {
  about: Handler<typeof shop.about>;
  listJobs: Handler<typeof jobs.listJobs>;
  createJob: Handler<typeof jobs.createJob>;
  showJob: Handler<typeof jobs.showJob>;
  listEntries: Handler<typeof jobs.listEntries>;
  appendEntries: Handler<typeof jobs.appendEntries>;
  verifyJob: Handler<typeof jobs.verifyJob>;
  exportJob: Handler<typeof jobs.exportJob>;
  importJob: Handler<typeof jobs.importJob>;
  printPaper: Handler<typeof papers.printPaper>;
  putRecording: Handler<typeof recordings.putRecording>;
  getRecording: Handler<typeof recordings.getRecording>;
  putPhoto: Handler<typeof photos.putPhoto>;
  getPhoto: Handler<typeof photos.getPhoto>;
  makeTrack: Handler<typeof recordings.makeTrack>;
  keepTrack: Handler<typeof recordings.keepTrack>;
  getTrack: Handler<typeof recordings.getTrack>;
  startReading: Handler<typeof readings.startReading>;
  showReading: Handler<typeof readings.showReading>;
  watchReading: Handler<typeof readings.watchReading>;
  getImpulse: Handler<typeof readings.getImpulse>;
  cancelReading: Handler<typeof readings.cancelReading>;
  startNearWalk: Handler<typeof near.startNearWalk>;
  startPlays: Handler<typeof near.startPlays>;
  showNear: Handler<typeof near.showNear>;
  cancelNear: Handler<typeof near.cancelNear>;
  listMicrophones: Handler<typeof shop.listMicrophones>;
  calibrateMicrophone: Handler<typeof shop.calibrateMicrophone>;
  readCorrection: Handler<typeof shop.readCorrection>;
  watchJobs: Handler<typeof shop.watchJobs>;
}

/** All routes with their handlers. */
export function apiOf(handlers: ApiHandlers) {
  const api = new OpenAPIHono({
    defaultHook: (result, context) => {
      if (result.success) return undefined;
      const issues = result.error.issues.map((issue) => ({
        code: 'field-invalid',
        message: issue.message,
        where: [result.target, ...issue.path.map(String)].join('.'),
      }));
      const body: ErrorBody = { error: issues.length > 1 ? { ...issues[0], issues } : issues[0] };
      return context.json(body, 400);
    },
  });
  return api
    .openapi(shop.about, handlers.about)
    .openapi(jobs.listJobs, handlers.listJobs)
    .openapi(jobs.createJob, handlers.createJob)
    .openapi(jobs.showJob, handlers.showJob)
    .openapi(jobs.listEntries, handlers.listEntries)
    .openapi(jobs.appendEntries, handlers.appendEntries)
    .openapi(jobs.verifyJob, handlers.verifyJob)
    .openapi(jobs.exportJob, handlers.exportJob)
    .openapi(jobs.importJob, handlers.importJob)
    .openapi(papers.printPaper, handlers.printPaper)
    .openapi(recordings.putRecording, handlers.putRecording)
    .openapi(recordings.getRecording, handlers.getRecording)
    .openapi(photos.putPhoto, handlers.putPhoto)
    .openapi(photos.getPhoto, handlers.getPhoto)
    .openapi(recordings.makeTrack, handlers.makeTrack)
    .openapi(recordings.keepTrack, handlers.keepTrack)
    .openapi(recordings.getTrack, handlers.getTrack)
    .openapi(readings.startReading, handlers.startReading)
    .openapi(readings.showReading, handlers.showReading)
    .openapi(readings.watchReading, handlers.watchReading)
    .openapi(readings.getImpulse, handlers.getImpulse)
    .openapi(readings.cancelReading, handlers.cancelReading)
    .openapi(near.startNearWalk, handlers.startNearWalk)
    .openapi(near.startPlays, handlers.startPlays)
    .openapi(near.showNear, handlers.showNear)
    .openapi(near.cancelNear, handlers.cancelNear)
    .openapi(shop.listMicrophones, handlers.listMicrophones)
    .openapi(shop.calibrateMicrophone, handlers.calibrateMicrophone)
    .openapi(shop.readCorrection, handlers.readCorrection)
    .openapi(shop.watchJobs, handlers.watchJobs);
}

/** For a typed client: `hc<Api>(origin)`. */
export type Api = ReturnType<typeof apiOf>;

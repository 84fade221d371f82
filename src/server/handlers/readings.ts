// Handlers of readings.
import { streamSSE } from 'hono/streaming';
import type { Issue } from '../../base/result.ts';
import type { ReadOptions } from '../../measurement/reading.ts';
import { badNews, jsonAnswer } from '../answers.ts';
import type { ReadingState } from '../api/readings.ts';
import type { ApiHandlers } from '../api.ts';
import type { ServerParts } from '../context.ts';
import { relayed } from '../relay.ts';

type ReadingHandlers = Pick<
  ApiHandlers,
  'startReading' | 'showReading' | 'watchReading' | 'getImpulse' | 'cancelReading'
>;

function readingUnknown(where: string): Issue {
  const mend = 'Ask for it with its recording and track.';
  return { code: 'reading-unknown', message: 'There is no such reading.', where, mend };
}

const isOver = ({ state }: ReadingState) => state !== 'waiting' && state !== 'running';

export function readingHandlers({ desk }: ServerParts): ReadingHandlers {
  return {
    async startReading(context) {
      const { recording, track, options } = context.req.valid('json');
      const started = await desk.start({ recording, track, options: options as ReadOptions });
      if (!started.ok) return badNews(context, started.issues, 404);
      return jsonAnswer(context, started.value, started.value.state === 'done' ? 200 : 202);
    },
    async showReading(context) {
      const { id } = context.req.valid('param');
      const state = desk.state(id);
      return state === null ? badNews(context, [readingUnknown(id)], 404) : context.json(state, 200);
    },
    async watchReading(context) {
      const { id } = context.req.valid('param');
      const state = desk.state(id);
      if (state === null) return badNews(context, [readingUnknown(id)], 404);
      return streamSSE(context, (stream) =>
        relayed<ReadingState>(
          stream,
          (push) => {
            const end = desk.watch(id, push);
            const { reading: _, ...now } = desk.state(id) ?? state;
            push(now);
            return end;
          },
          (news) => ({
            event: news.state === 'waiting' || news.state === 'running' ? 'progress' : news.state,
            data: news,
            last: isOver(news),
          }),
        ),
      );
    },
    async getImpulse(context) {
      const { id } = context.req.valid('param');
      const impulse = desk.impulse(id);
      if (impulse === null) {
        const message = 'The reading has no impulse response, or is not done.';
        return badNews(context, [{ code: 'impulse-unknown', message, where: id, mend: 'Look at its state.' }], 404);
      }
      return context.body(new Uint8Array(impulse.wav), 200, {
        'content-type': 'audio/wav',
        'kickpanel-arrival-index': String(impulse.arrivalIndex),
      });
    },
    async cancelReading(context) {
      const { id } = context.req.valid('param');
      const state = desk.cancel(id);
      return state === null ? badNews(context, [readingUnknown(id)], 404) : context.json(state, 200);
    },
  };
}

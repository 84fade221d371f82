// From callbacks to server-sent events: in order, none lost, and over when the caller has gone.
import type { SSEStreamingApi } from 'hono/streaming';

interface Event {
  event: string;
  data: unknown;
  /** Nothing follows. */
  last?: boolean;
}

/** A line now and then tells both ends that the other is still there. */
const heartbeatMs = 15_000;

/**
 * Sends what `subscribe` pushes until the last event or until the caller goes away.
 *
 * @param subscribe gets the push, returns what ends the subscription
 */
export async function relayed<News>(
  stream: SSEStreamingApi,
  subscribe: (push: (news: News) => void) => () => void,
  eventOf: (news: News) => Event,
): Promise<void> {
  const queue: News[] = [];
  let wake: () => void = () => {};
  let gone = false;
  const end = subscribe((news) => {
    queue.push(news);
    wake();
  });
  stream.onAbort(() => {
    gone = true;
    wake();
  });
  try {
    while (!gone) {
      const news = queue.shift();
      if (news !== undefined) {
        const { event, data, last } = eventOf(news);
        await stream.writeSSE({ event, data: JSON.stringify(data) });
        if (last) return;
        continue;
      }
      let timer: NodeJS.Timeout | undefined;
      await new Promise<void>((resolve) => {
        wake = resolve;
        timer = setTimeout(resolve, heartbeatMs);
        timer.unref();
      });
      clearTimeout(timer);
      if (queue.length === 0 && !gone) await stream.write(': still here\n\n');
    }
  } finally {
    end();
  }
}

// The body of a call, piece by piece, as fast as it is taken and no faster.
import type { IncomingMessage } from 'node:http';
import type { Context } from 'hono';

/**
 * The pieces of a body; none where there is no body.
 *
 * Where the server is node's own, they are taken from its socket: a web stream between doubles what is in memory at once.
 */
export async function* bodyPieces(context: Context): AsyncGenerator<Uint8Array> {
  const { incoming } = (context.env ?? {}) as { incoming?: IncomingMessage };
  if (incoming !== undefined) {
    yield* incoming as AsyncIterable<Uint8Array>;
    return;
  }
  const { body } = context.req.raw;
  if (body === null) return;
  const reader = body.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    // Whoever stops taking does not want the rest.
    await reader.cancel().catch(() => {});
  }
}

// The body of a call, piece by piece, as fast as it is taken and no faster.
import type { IncomingMessage } from 'node:http';
import type { Context } from 'hono';
import { storeFailure } from '../store/failure.ts';

/**
 * The pieces of a body; none where there is no body.
 *
 * Where the server is node's own they are taken from its socket: a web stream between would be slower. Whoever stops in
 * the middle can still answer.
 *
 * @throws StoreFailure `upload-broken-off` when the sender goes away
 */
export async function* bodyPieces(context: Context): AsyncGenerator<Uint8Array> {
  const { incoming } = (context.env ?? {}) as { incoming?: IncomingMessage };
  try {
    if (incoming !== undefined) yield* incoming.iterator({ destroyOnReturn: false }) as AsyncIterable<Uint8Array>;
    else if (context.req.raw.body !== null) yield* context.req.raw.body as unknown as AsyncIterable<Uint8Array>;
  } catch (error) {
    const message = 'The sender went away before all of it had come: nothing of it was kept.';
    throw storeFailure({ code: 'upload-broken-off', message, mend: 'Send it again.' }, error);
  }
}

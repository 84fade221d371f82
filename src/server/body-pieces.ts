// The body of a call, piece by piece, as fast as it is taken and no faster.

/** The pieces of a body; none where there is no body. */
export async function* bodyPieces(request: Request): AsyncGenerator<Uint8Array> {
  if (request.body === null) return;
  const reader = request.body.getReader();
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

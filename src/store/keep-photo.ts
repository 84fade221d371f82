// Photos on their way in and out: kept as they came, by the same store as recordings.
import type { Result } from '../base/result.ts';
import type { PhotoType } from '../job/entry-kinds.ts';
import type { ContentStore, Kept } from './content-store.ts';
import { type PhotoFacts, photoFacts } from './photo-facts.ts';

/** The largest photo taken in; telephones write up to about 30 MB. */
export const photoBytesMax = 40e6;

/** Keeps a photo as it is; refused is what is no whole JPEG or PNG. */
export function keepPhoto(
  content: ContentStore,
  pieces: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  sha256?: string,
): Promise<Result<Kept & { checked: PhotoFacts }>> {
  return content.receive('photos', pieces, {
    bytesMax: photoBytesMax,
    tooLargeMend: 'Photograph it with fewer megapixels.',
    ...(sha256 === undefined ? {} : { sha256 }),
    check: photoFacts,
  });
}

/** What a kept photo is; null where there is none. */
export async function keptPhoto(
  content: ContentStore,
  sha256: string,
): Promise<{ bytes: number; type: PhotoType } | null> {
  const source = await content.open('photos', sha256);
  if (source === null) return null;
  try {
    // Only whole photos are kept, so the first byte tells which of the two it is.
    const type = source.byteLength > 0 && source.read(0, 1)[0] === 0x89 ? 'png' : 'jpeg';
    return { bytes: source.byteLength, type };
  } finally {
    source.close();
  }
}

// Photos named in a call: a file is kept and becomes a wish to attach it; one of the job is named by its hash or name.
import { basename } from 'node:path';
import { failure, type Result, success } from '../../base/result.ts';
import type { CommandOf } from '../../job/commands/commands.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import { piecesOf } from '../../store/file-hash.ts';
import { keepPhoto } from '../../store/keep-photo.ts';
import { openFileSource } from '../file-source.ts';
import type { JobCall } from './job-call.ts';
import { wishFrom } from './wishes.ts';

type AttachWish = CommandOf<'attachPhoto'>;

/** Keeps the photo in a file; the wish that enters it calls it `name`, or as the file is called. */
export async function photoKept({ workshop }: JobCall, path: string, name?: string): Promise<Result<AttachWish>> {
  const source = openFileSource(path);
  if (!source.ok) return source;
  try {
    const kept = await keepPhoto(workshop.content, piecesOf(source.value));
    if (!kept.ok) return failure(...kept.issues.map((issue) => ({ ...issue, where: path })));
    const { sha256: photo, bytes, checked } = kept.value;
    const called = name ?? basename(path).replace(/\.(jpe?g|png)$/i, '');
    const wish = wishFrom({ command: 'attachPhoto', photo, bytes, type: checked.type, name: called }, path);
    return wish.ok ? success(wish.value as AttachWish) : wish;
  } finally {
    source.value.close();
  }
}

/**
 * The photo that `text` means: one of the job by its hash, the start of it (eight digits or more) or its name, else a file,
 * which is kept and has to be attached first.
 */
export async function photoAsked(
  call: JobCall,
  { photos }: JobState,
  text: string,
): Promise<Result<{ photo: string; wishes: AttachWish[] }>> {
  const known =
    photos.find(({ name }) => name === text) ??
    (/^[0-9a-f]{8,64}$/.test(text) ? photos.find(({ photo }) => photo.startsWith(text)) : undefined);
  if (known !== undefined) return success({ photo: known.photo, wishes: [] });
  const kept = await photoKept(call, text, call.given('name'));
  return kept.ok ? success({ photo: kept.value.photo, wishes: [kept.value] }) : kept;
}

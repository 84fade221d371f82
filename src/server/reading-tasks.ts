// What is computed away from the server's own thread: readings of takes, and the sound of tracks.
import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { failure, type Result, success } from '../base/result.ts';
import { ReadingCancelled, readTake } from '../measurement/read-take.ts';
import type { ReadControl } from '../measurement/reading.ts';
import { readWav } from '../signals/wav/read-wav.ts';
import { fileSource } from '../store/file-source.ts';
import { trackSound } from '../store/track-sound.ts';
import { cutPlays, walkNear } from './near-tasks.ts';
import { cancelledIssue, type ReadTask, type RenderTask, type Task, type TaskOutcome } from './worker-messages.ts';

/** Does a task where it is called, with progress and a way to stop it. */
export function performTask(task: Task, control: ReadControl): Result<TaskOutcome> {
  switch (task.kind) {
    case 'read':
      return read(task, control);
    case 'render':
      return render(task, control);
    case 'near-walk':
      return walkNear(task, control);
    case 'plays':
      return cutPlays(task, control);
  }
}

function read({ recordingPath, track, options }: ReadTask, control: ReadControl): Result<TaskOutcome> {
  const source = fileSource(recordingPath);
  try {
    const wav = readWav(source);
    if (!wav.ok) return wav;
    const { recording } = wav.value;
    if (options.input !== undefined && options.input >= recording.channels) {
      const have = recording.channels === 1 ? 'only one input' : `${recording.channels} inputs`;
      const message = `The recording has ${have}, so there is no input ${options.input + 1}.`;
      return failure({ code: 'no-such-input', message, mend: 'Read another input.' });
    }
    return success(readTake(recording, track, options, control));
  } catch (error) {
    if (error instanceof ReadingCancelled) return failure(cancelledIssue);
    throw error;
  } finally {
    source.close();
  }
}

function render({ track, path }: RenderTask, control: ReadControl): Result<TaskOutcome> {
  const sound = trackSound(track);
  if (sound === null) {
    const message = 'The description does not say all that this track plays, so its sound cannot be made.';
    return failure({ code: 'track-unplayable', message, mend: 'Play the file that came with the description.' });
  }
  const draft = `${path}.${process.pid}.tmp`;
  try {
    const file = openSync(draft, 'w');
    let done = 0;
    try {
      for (const piece of sound.pieces()) {
        if (control.cancelled?.()) return failure(cancelledIssue);
        for (let at = 0; at < piece.length; ) at += writeSync(file, piece, at);
        done += piece.length;
        control.onProgress?.(done / sound.byteLength, 'making the track');
      }
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(draft, path);
    return success(null);
  } finally {
    rmSync(draft, { force: true });
  }
}

// Near walks and long recordings of them, as workers do them.
import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { deserialize, serialize } from 'node:v8';
import { failure, type Result, success } from '../base/result.ts';
import { jobNearWalk } from '../job/near-walk/job-near-walk.ts';
import { type NearTake, nearTake } from '../measurement/near-field/near-take.ts';
import { playsIn } from '../measurement/near-field/plays-in.ts';
import type { ReadControl } from '../measurement/reading.ts';
import type { Recording } from '../signals/recording.ts';
import { readWav } from '../signals/wav/read-wav.ts';
import { writeWav } from '../signals/wav/write-wav.ts';
import { fileSource } from '../store/file-source.ts';
import {
  cancelledIssue,
  type NearWalkOutcome,
  type NearWalkTask,
  type PlayOutcome,
  type PlaysOutcome,
  type PlaysTask,
} from './worker-messages.ts';

type KeptTake = NearWalkTask['takes'][number];

function keptTake({ keptAt }: KeptTake): NearTake | null {
  try {
    return deserialize(readFileSync(keptAt)) as NearTake;
  } catch {
    return null;
  }
}

/** A cache that cannot be written is no reason to fail. */
function keep({ keptAt }: KeptTake, take: NearTake): void {
  const draft = `${keptAt}.${process.pid}.tmp`;
  try {
    writeFileSync(draft, serialize(take));
    renameSync(draft, keptAt);
  } catch {
    rmSync(draft, { force: true });
  }
}

function withRecording<Value>(path: string, use: (recording: Recording) => Value): Result<Value> {
  const source = fileSource(path);
  try {
    const wav = readWav(source);
    return wav.ok ? success(use(wav.value.recording)) : wav;
  } finally {
    source.close();
  }
}

/** Reads every take that is not kept yet, then all of them together; stops between takes when asked. */
export function walkNear({ plan, takes }: NearWalkTask, control: ReadControl): Result<NearWalkOutcome> {
  const read = new Map<string, NearTake>();
  for (const [n, take] of takes.entries()) {
    if (control.cancelled?.()) return failure(cancelledIssue);
    control.onProgress?.(n / (takes.length + 1), `listening at ${take.place}`);
    const before = keptTake(take);
    const fresh =
      before === null
        ? withRecording(take.recordingPath, (recording) => nearTake(recording, take.track))
        : success(before);
    if (!fresh.ok) return fresh;
    if (before === null) keep(take, fresh.value);
    read.set(take.place, fresh.value);
  }
  if (control.cancelled?.()) return failure(cancelledIssue);
  control.onProgress?.(takes.length / (takes.length + 1), 'explaining all takes together');
  return success({ walk: jobNearWalk(plan, read) });
}

/** 32-bit floats hold samples of up to 24 bits as they are. */
function wavOf(recording: Recording): Uint8Array {
  const channels = Array.from({ length: recording.channels }, (_, channel) => {
    const samples = new Float64Array(recording.frames);
    recording.readChannel(channel, 0, recording.frames, samples);
    return samples;
  });
  return writeWav({ channels, rateHz: recording.rateHz, format: '32f' });
}

/** Finds each whole play of the track, in their order, and cuts it out; the long recording stays as it is. */
export function cutPlays({ recordingPath, track }: PlaysTask, control: ReadControl): Result<PlaysOutcome> {
  const found = withRecording(recordingPath, (recording) =>
    playsIn(recording, track, (share) => control.onProgress?.(share, 'looking for each stop')).map(
      ({ startS, recording: play }): PlayOutcome => ({
        startS,
        durationS: play.frames / play.rateHz,
        wav: wavOf(play),
      }),
    ),
  );
  if (!found.ok) return found;
  return control.cancelled?.() ? failure(cancelledIssue) : success({ plays: found.value });
}

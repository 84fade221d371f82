// `job append JOB [FILE]`: wishes or entries from JSON, or a take with its recording and track.
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { piecesOf } from '../../store/file-hash.ts';
import { jobView } from '../../store/job-views.ts';
import { keepRecording, keepTrack } from '../../store/keep-files.ts';
import { carryOut, takeIn, type Written } from '../../store/write-entries.ts';
import { openFileSource } from '../file-source.ts';
import { readTextFile } from '../text-file.ts';
import { readTrackFile } from '../track-file.ts';
import { issuesOutcome, type JobCall, type JobPart, jobNamed, whoOf } from './job-call.ts';
import { jobText } from './job-text.ts';
import { type Asked, askedIn, wishFrom } from './wishes.ts';

const textBytesMax = 64e6;

function askedFrom(file: string): Result<Asked> {
  if (file !== '-') {
    const text = readTextFile(file, textBytesMax);
    return text.ok ? askedIn(text.value, file) : text;
  }
  return askedIn(readFileSync(0, 'utf8'), 'stdin');
}

/** Keeps the recording and the track, then makes the wish that enters the take. */
async function takeAsked({ given, workshop }: JobCall, recordingPath: string): Promise<Result<Asked>> {
  const trackPath = given('track');
  if (trackPath === undefined) {
    const mend = 'Give the description of the track that was playing.';
    return failure({ code: 'option-missing', message: 'A take needs its track.', where: '--track', mend });
  }
  const track = readTrackFile(trackPath);
  const source = openFileSource(recordingPath);
  if (!track.ok || !source.ok) return failure(...[track, source].flatMap((part) => (part.ok ? [] : part.issues)));
  const named = (issue: Issue): Issue => ({ ...issue, where: recordingPath });
  try {
    const recording = await keepRecording(workshop.content, piecesOf(source.value));
    if (!recording.ok) return failure(...recording.issues.map(named));
    const kept = await keepTrack(workshop.content, track.value);
    if (!kept.ok) return kept;
    const wish = wishFrom(
      {
        command: 'recordTake',
        name: given('name') ?? basename(recordingPath).replace(/\.wav$/i, ''),
        recording: recording.value.sha256,
        bytes: recording.value.bytes,
        track: kept.value.sha256,
        microphone: given('microphone'),
        place: given('place'),
        side: given('side'),
      },
      'the take',
    );
    return wish.ok ? success({ requests: [{ wish: wish.value }] }) : wish;
  } finally {
    source.value.close();
  }
}

export const appendToJob: JobPart = {
  operands: [1, 2],
  usage: 'job append JOB [WISHES.json|-]',
  async run(call) {
    const { operands, given, workshop } = call;
    const job = await jobNamed(workshop, operands[0]);
    if (!job.ok) return issuesOutcome(...job.issues);
    const recording = given('recording');
    const [, file] = operands;
    if ((file === undefined) === (recording === undefined)) {
      const mend = 'Give a file of wishes, or --recording with --track.';
      return issuesOutcome({ code: 'nothing-to-append', message: 'What is to be appended?', mend });
    }
    const asked = recording === undefined ? askedFrom(file) : await takeAsked(call, recording);
    if (!asked.ok) return issuesOutcome(...asked.issues);
    const who = whoOf(given);
    const written: Result<Written> =
      'entries' in asked.value
        ? await takeIn(workshop, job.value, asked.value.entries)
        : await carryOut(
            workshop,
            job.value,
            asked.value.requests.map((request) => ({ who, ...request, id: request.id ?? workshop.freshId() })),
          );
    if (!written.ok) return issuesOutcome(...written.issues);
    const view = await jobView(workshop, job.value);
    if (view === null) throw new Error(`job ${job.value} must be there after it was written`);
    const { appended, known } = written.value;
    return {
      status: 0,
      answer: { appended, known, view },
      text: (style) => {
        const were = known.length === 0 ? '' : `, ${known.length} were there`;
        return `${appended.length} ${appended.length === 1 ? 'entry' : 'entries'} appended${were}\n\n${jobText(view, style)}`;
      },
    };
  },
};

// `read`: one take, from the files to the answer and to what is written beside it.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { parseMicrophoneCalibration } from '../../measurement/microphone-calibration.ts';
import { readTake } from '../../measurement/read-take.ts';
import type { ImpulseResponse, Reading, ReadOptions } from '../../measurement/reading.ts';
import { writeWav } from '../../signals/wav/write-wav.ts';
import type { Command, CommandContext, CommandOutcome } from '../command.ts';
import { freeMemory } from '../free-memory.ts';
import { numberValue } from '../option-values.ts';
import type { TextStyle } from '../output.ts';
import { readOptionList, readOptionsFrom } from '../read-options.ts';
import { readingCsv } from '../reading-csv.ts';
import { readingSummary } from '../reading-summary.ts';
import { readTextFile } from '../text-file.ts';
import { readTrackFile } from '../track-file.ts';
import { type OpenWav, openWavFile } from '../wav-file.ts';
import { wrapped } from '../wrap.ts';
import { writeWholeFile } from '../write-file.ts';

/** The one operand and the option that must be there. */
function filesNamed({ operands, given }: CommandContext): Result<{ take: string; track: string }> {
  const issues: Issue[] = [];
  const [take = '', ...more] = operands;
  const track = given('track');
  const mend = 'Call it as: kickpanel read REC.wav --track F.track.json';
  if (take === '') issues.push({ code: 'argument-missing', message: 'read needs the recording.', mend });
  for (const where of more) {
    issues.push({
      code: 'too-many-arguments',
      message: 'read takes one recording.',
      where,
      mend: 'Read one at a time.',
    });
  }
  if (track === undefined) {
    const message = 'read needs the description of the track that was playing.';
    issues.push({ code: 'option-missing', message, where: '--track', mend });
  }
  return issues.length > 0 ? failure(...issues) : success({ take, track: track as string });
}

/** Something odd about a file that was used all the same. */
interface FileNote {
  code: string;
  message: string;
  where?: string;
  values?: Record<string, number>;
}

interface Calibrated {
  options: ReadOptions;
  notes: FileNote[];
}

/** The reading options with what the microphone's file adds to them. */
function withCalibration(options: ReadOptions, file: string | undefined): Result<Calibrated> {
  if (file === undefined) return success({ options, notes: [] });
  const text = readTextFile(file, 5e6);
  if (!text.ok) return text;
  const microphone = parseMicrophoneCalibration(text.value);
  if (microphone.ok) {
    const { fHz, deviationDb, notes } = microphone.value;
    const said = notes.map((message) => ({ code: 'calibration-note', message, where: file }));
    return success({ options: { ...options, microphone: { fHz, deviationDb } }, notes: said });
  }
  return failure(
    ...microphone.issues.map((issue) => ({ ...issue, where: [file, issue.where].filter(Boolean).join(', ') })),
  );
}

/** The loop-back that the call names: a file of its own, or another input of the take. */
function referenceOf(
  given: CommandContext['given'],
  take: OpenWav,
): Result<{ wav: OpenWav; own: boolean; input: number } | null> {
  const file = given('reference');
  const text = given('reference-input');
  if (file === undefined && text === undefined) return success(null);
  const input =
    text === undefined ? success(1) : numberValue('reference-input', text, { min: 1, max: 64, whole: true });
  if (!input.ok) return input;
  const wav = file === undefined ? success(take) : openWavFile(file);
  if (!wav.ok) return wav;
  if (input.value <= wav.value.recording.channels) {
    return success({ wav: wav.value, own: file !== undefined, input: input.value - 1 });
  }
  if (file !== undefined) wav.value.close();
  const message = `There is no input ${input.value} to take the loop-back from.`;
  return failure({ code: 'no-such-input', message, where: '--reference-input', mend: 'Give an input that is there.' });
}

/** An input that the recording does not have. */
function inputIssue(options: ReadOptions, { recording }: OpenWav, take: string): Issue[] {
  if (options.input === undefined || options.input < recording.channels) return [];
  const have = recording.channels === 1 ? 'only one input' : `${recording.channels} inputs`;
  const message = `The recording has ${have}, so there is no input ${options.input + 1}.`;
  return [{ code: 'no-such-input', message, where: take, mend: 'Give --input 1 or leave it out.' }];
}

interface Written {
  files: string[];
  /** What was asked for and could not be made. */
  missed: string[];
}

/** Writes the tables and responses that were asked for. */
function writeResults(
  given: CommandContext['given'],
  reading: Reading,
  impulse: ImpulseResponse | null,
): Result<Written> {
  const written: Written = { files: [], missed: [] };
  const contents: [string | undefined, string | Uint8Array | null][] = [
    [given('csv'), reading.response === undefined ? null : readingCsv(reading)],
    [given('impulse'), impulse && writeWav({ channels: [impulse.samples], rateHz: impulse.rateHz, format: '32f' })],
  ];
  for (const [path, content] of contents) {
    if (path === undefined) continue;
    if (content === null) {
      written.missed.push(path);
      continue;
    }
    const done = writeWholeFile(path, content);
    if (!done.ok) return done;
    written.files.push(path);
  }
  return success(written);
}

function writtenText({ files, missed }: Written): string {
  return [
    ...files.map((path) => `\nWritten: ${path}`),
    ...missed.map((path) => `\nNot written, because this take does not carry it: ${path}`),
  ].join('');
}

function notesText(notes: FileNote[], style: TextStyle): string {
  if (notes.length === 0) return '';
  return `\n${['About the files', ...notes.flatMap(({ message }) => wrapped(`  ${message}`, style.width, 4))].join('\n')}\n`;
}

function answer(reading: Reading, notes: FileNote[], written: Written): CommandOutcome {
  const answer = {
    ...reading,
    ...(notes.length > 0 ? { fileNotes: notes } : {}),
    ...(written.files.length > 0 ? { written: written.files } : {}),
  };
  const endText = writtenText(written);
  return {
    status: reading.quality.usable ? 0 : 1,
    answer,
    text: (style) =>
      `${readingSummary(reading, style)}${notesText(notes, style)}${endText}${endText === '' ? '' : '\n'}`,
  };
}

function run(context: CommandContext): CommandOutcome {
  const { given, onProgress } = context;
  const files = filesNamed(context);
  const values = readOptionsFrom(given);
  const badCall = [files, values].flatMap((part) => (part.ok ? [] : part.issues));
  if (!files.ok || !values.ok) return { status: 2, issues: badCall };

  const track = readTrackFile(files.value.track);
  const options = withCalibration(values.value, given('mic-calibration'));
  const take = openWavFile(files.value.take);
  const opened: OpenWav[] = [];
  try {
    const badFiles = [take, track, options].flatMap((part) => (part.ok ? [] : part.issues));
    if (!track.ok || !options.ok || !take.ok) return { status: 2, issues: badFiles };
    const { options: wanted, notes } = options.value;
    const noInput = inputIssue(wanted, take.value, files.value.take);
    if (noInput.length > 0) return { status: 2, issues: noInput };
    const reference = referenceOf(given, take.value);
    if (!reference.ok) return { status: 2, issues: reference.issues };
    if (reference.value) {
      const { wav, input } = reference.value;
      wanted.reference = { recording: wav.recording, input };
      // Where both lie in one file, the microphone is the other input.
      if (!reference.value.own && wanted.input === undefined) wanted.input = input === 0 ? 1 : 0;
      if (reference.value.own) opened.push(wav);
    }
    const { reading, impulse } = readTake(take.value.recording, track.value, wanted, {
      onProgress: (share, doing) => {
        freeMemory();
        onProgress(share, doing);
      },
    });
    const written = writeResults(given, reading, impulse);
    return written.ok
      ? answer(reading, [...take.value.notes, ...notes], written.value)
      : { status: 2, issues: written.issues };
  } finally {
    if (take.ok) take.value.close();
    for (const wav of opened) wav.close();
  }
}

export const command: Command = {
  name: 'read',
  summary: 'read one take: what the recording is worth, response, arrival, polarity, distortion',
  usage: 'read REC.wav --track F.track.json [options]',
  details:
    'The verdict on the recording comes first. A take that is unusable ends with status 1, and the answer says what to do.',
  options: readOptionList,
  example: 'kickpanel read examples/door.wav --track examples/door.track.json',
  run,
};
